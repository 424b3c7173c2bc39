// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/buzz.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "signal/fft.h"
#include "signal/median.h"
#include "signal/zoom_band.h"

namespace ringfall::shot {
namespace {

constexpr double kBuzzBegin_s = 0.020, kBuzzEnd_s = 0.220;
constexpr double kLeastBuzz_s = 0.100;
constexpr double kBandLow_hz = 1000.0, kBandHigh_hz = 8000.0, kLeastHigh_hz = 3000.0;
constexpr double kRateLow_hz = 30.0, kRateHigh_hz = 250.0;
constexpr std::size_t kBuzzPadding = 4;

constexpr std::size_t kLeastShots = 3;
constexpr double kLeastModulation_db = 11.0;
constexpr double kSameRate = 0.05;
constexpr double kLeastSameShare = 0.8;

/// Mean square of the band over time, at the rate of its width: beats of tones far apart do not fold down into the
/// rates looked at. Empty when the stretch is too short.
struct Envelope {
  std::vector<double> power;
  double rate_hz = 0.0;
};

Envelope envelope_of(std::span<const double> stretch, double sample_rate_hz, double high_hz) {
  Envelope envelope;
  const signal::TailSpectrum spectrum(stretch, sample_rate_hz);
  const signal::BinRange range = signal::bins_between(spectrum, kBandLow_hz, high_hz);
  if (range.count < 64) return envelope;
  const signal::ZoomedBand band = signal::zoom_band(spectrum, range, range.count / 16);
  envelope.rate_hz = band.rate_hz;
  for (std::size_t n = band.edge; n + band.edge < band.samples.size(); ++n)
    envelope.power.push_back(std::norm(band.samples[n]));
  return envelope;
}

/// Divides by the slow course of the logarithms, a polynomial of 4th degree: a straight line for the decay, the rest for where
/// tones and floor take over. Its fastest swing in 200 ms is about 10 Hz, well below a buzz.
void take_decay_away(std::vector<double>& power) {
  constexpr int kDegree = 4;
  const auto n = static_cast<double>(power.size());
  const double loudest = *std::max_element(power.begin(), power.end());
  std::vector<double> rest;
  for (double p : power) rest.push_back(std::log(std::max(p, 1e-9 * loudest)));
  std::vector<double> course(power.size(), 0.0);
  std::vector<double> before(power.size(), 0.0), now(power.size(), 1.0);
  double square_before = 1.0;
  for (int degree = 0; degree <= kDegree; ++degree) {
    // Discrete orthogonal polynomials by their three-term recurrence; times are symmetric, so one term is zero.
    double square = 0.0, product = 0.0;
    for (std::size_t i = 0; i < now.size(); ++i) {
      square += now[i] * now[i];
      product += now[i] * rest[i];
    }
    for (std::size_t i = 0; i < now.size(); ++i) {
      const double t = (2.0 * static_cast<double>(i) - n + 1.0) / n;
      course[i] += product / square * now[i];
      const double next = t * now[i] - (degree > 0 ? square / square_before : 0.0) * before[i];
      before[i] = now[i];
      now[i] = next;
    }
    square_before = square;
  }
  for (std::size_t i = 0; i < power.size(); ++i) power[i] /= std::exp(course[i]);
}

/// The highest local maximum; nullopt when the spectrum has none inside.
std::optional<std::size_t> highest_line(const std::vector<double>& spectrum) {
  std::optional<std::size_t> top;
  for (std::size_t k = 1; k + 1 < spectrum.size(); ++k)
    if (spectrum[k] > spectrum[k - 1] && spectrum[k] >= spectrum[k + 1] && (!top || spectrum[k] > spectrum[*top])) top = k;
  return top;
}

/// Is the rate the spacing of two tones in most of the shots? Two close pings beat and are no buzz.
bool is_beating(std::span<const BuzzEvidence> shots, double rate_hz) {
  std::size_t beating = 0;
  for (const BuzzEvidence& shot : shots) {
    bool found = false;
    for (const Tone& one : shot.tones)
      for (const Tone& other : shot.tones) {
        const double spacing_hz = one.frequency_hz - other.frequency_hz;
        found |= one.frequency_hz >= kBandLow_hz && other.frequency_hz >= kBandLow_hz &&
                 std::abs(spacing_hz - rate_hz) <= kSameRate * rate_hz;
      }
    beating += found ? 1 : 0;
  }
  return 2 * beating >= shots.size();
}

}  // namespace

std::optional<Buzz> buzz_of(std::span<const double> pressure_pa, double sample_rate_hz, double edge_sample,
                            double tail_end_s) {
  const double high_hz = std::min(kBandHigh_hz, 0.46 * sample_rate_hz);
  const double end_s = std::min(kBuzzEnd_s, tail_end_s);
  const double first = std::ceil(edge_sample + kBuzzBegin_s * sample_rate_hz);
  const double end = std::min(static_cast<double>(pressure_pa.size()), std::floor(edge_sample + end_s * sample_rate_hz));
  if (high_hz < kLeastHigh_hz || first < 0 || end - first < kLeastBuzz_s * sample_rate_hz) return std::nullopt;
  Envelope envelope = envelope_of(pressure_pa.subspan(static_cast<std::size_t>(first),
                                                      static_cast<std::size_t>(end - first)),
                                  sample_rate_hz, high_hz);
  const std::size_t count = envelope.power.size();
  if (count < 32 || !(*std::max_element(envelope.power.begin(), envelope.power.end()) > 0)) return std::nullopt;
  take_decay_away(envelope.power);
  double mean = 0.0;
  for (double p : envelope.power) mean += p / static_cast<double>(count);
  std::vector<double> windowed(signal::fast_length(kBuzzPadding * count), 0.0);
  for (std::size_t n = 0; n < count; ++n) {
    const double s = std::sin(std::numbers::pi * (static_cast<double>(n) + 0.5) / static_cast<double>(count));
    windowed[n] = s * s * (envelope.power[n] - mean);
  }
  std::vector<std::complex<double>> bins(windowed.size() / 2 + 1);
  signal::fft_real(windowed, bins);
  const double bin_hz = envelope.rate_hz / static_cast<double>(windowed.size());
  std::vector<double> spectrum;
  const auto lowest = static_cast<std::size_t>(std::ceil(kRateLow_hz / bin_hz));
  const auto highest = std::min(bins.size() - 1, static_cast<std::size_t>(kRateHigh_hz / bin_hz));
  for (std::size_t k = lowest; k <= highest; ++k) spectrum.push_back(std::norm(bins[k]));
  if (spectrum.size() < 8) return std::nullopt;
  const auto top = highest_line(spectrum);
  const double typical = signal::upper_median(spectrum);
  if (!top || !(typical > 0)) return std::nullopt;
  return Buzz{10.0 * std::log10(spectrum[*top] / typical), static_cast<double>(lowest + *top) * bin_hz};
}

std::optional<BuzzClaim> buzz_claimed(std::span<const BuzzEvidence> shots) {
  std::vector<double> rates;
  double sum_db = 0.0;
  for (const BuzzEvidence& shot : shots) {
    if (!shot.buzz) continue;
    rates.push_back(shot.buzz->rate_hz);
    sum_db += shot.buzz->modulation_db;
  }
  if (rates.size() < kLeastShots) return std::nullopt;
  BuzzClaim claim;
  const auto n = static_cast<double>(rates.size());
  claim.modulation_db = sum_db / n;
  claim.rate_hz = signal::upper_median(rates);
  const auto same = std::count_if(rates.begin(), rates.end(), [&](double rate) {
    return std::abs(rate - claim.rate_hz) <= kSameRate * claim.rate_hz;
  });
  claim.same_rate = static_cast<double>(same) / n;
  if (claim.modulation_db < kLeastModulation_db || claim.same_rate < kLeastSameShare) return std::nullopt;
  if (is_beating(shots, claim.rate_hz)) return std::nullopt;
  return claim;
}

}  // namespace ringfall::shot
