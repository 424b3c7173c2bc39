// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace ringfall::signal {

/// Loudness of ISO 532-1:2017 once more, slow and obvious: one band after the other, every inner step taken, numbers
/// read from the tables in tests/data/iso532_1. The tests hold the fast code of src/signal/loudness*.cpp against it.
class PlainLoudness {
 public:
  explicit PlainLoudness(const std::string& folder);

  struct Spectrum {
    double loudness_sone = 0.0;
    std::array<double, 240> specific_sone_per_bark{};
  };
  struct Trace {
    std::vector<double> loudness_sone;                          ///< each 2 ms
    std::vector<std::array<double, 240>> specific_sone_per_bark;
  };

  /// Of 28 third-octave levels in dB (method A).
  Spectrum stationary(std::span<const double> levels_db, bool diffuse = false) const;
  /// Of pressure in Pa at 48 kHz.
  Trace time_varying(std::span<const double> pressure_pa, bool diffuse = false) const;
  /// Third-octave levels in dB of pressure in Pa at 48 kHz, without its first skip_s.
  std::array<double, 28> levels_db(std::span<const double> pressure_pa, double skip_s) const;

 private:
  std::vector<double> band(std::span<const double> pressure_pa, std::size_t index) const;
  std::array<double, 21> core(std::span<const double> levels_db, bool diffuse) const;
  Spectrum slopes(std::span<const double> core) const;

  std::vector<std::vector<double>> filters_, reduction_, per_band_, upper_slopes_;
};

}  // namespace ringfall::signal
