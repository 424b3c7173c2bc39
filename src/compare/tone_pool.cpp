// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/tone_pool.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include "shot/pressure_clip.h"
#include "shot/ring_score.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

using shot::ToneFamily;

/// A reading that repeats the pooled ring time is none of its own.
constexpr double kSameRing = 1e-9;
/// Tones of two searches this near in ratio are one (a reading looks within 0.6 %).
constexpr double kOneListedTone = 0.01;
/// Tails of one rate can be laid over each other.
constexpr double kSameRate = 1e-3;

std::vector<shot::Tone> of_band(const std::vector<shot::Tone>& tones, bool ping) {
  std::vector<shot::Tone> own;
  for (const shot::Tone& tone : tones) {
    if ((tone.family == ToneFamily::ping) == ping) own.push_back(tone);
  }
  return own;
}

/// What hum and ping have in common.
struct Scored {
  ToneFamily family;
  Quantity quantity;
  std::optional<double> shot::Shot::*score;
  shot::ScoreParts shot::Shot::*parts;
};
constexpr Scored kHum = {ToneFamily::hum, Quantity::hum, &shot::Shot::hum, &shot::Shot::hum_parts};
constexpr Scored kPing = {ToneFamily::ping, Quantity::ping, &shot::Shot::ping, &shot::Shot::ping_parts};

bool masks(const Finding& finding, Quantity quantity) {
  return finding.code == "tail_masked" && std::ranges::find(finding.voids, quantity) != finding.voids.end();
}

/// Can its tail be listened to: has it the score, or lacks it for nothing but a tone that may hide in this shot?
bool listened(const shot::Shot& shot, const Scored& scored) {
  if (shot.*scored.score) return true;
  std::vector<Finding> others;
  std::ranges::remove_copy_if(shot.findings, std::back_inserter(others),
                              [&](const Finding& finding) { return masks(finding, scored.quantity); });
  return others.size() < shot.findings.size() && !voided(others, scored.quantity);
}

/// Does the pool's knowledge tell the score of a shot that could not tell it alone? The pool settles what a doubtful line was; how faint
/// a tone comes through is the shot's own, and a reading fainter than that may be noise.
bool told_here(const Scored& scored, const shot::TailSound& tail, const std::vector<shot::Tone>& readings, shot::TailTones heard_together,
               const shot::MeasureSettings& settings) {
  const auto alone = shot::find_tones(tail, settings);
  heard_together.faintest_hum_db = alone.faintest_hum_db;
  heard_together.faintest_ping_db = alone.faintest_ping_db;
  const auto faintest_db = scored.quantity == Quantity::hum ? alone.faintest_hum_db : alone.faintest_ping_db;
  if (!faintest_db) return false;
  std::vector<shot::Tone> clear;
  std::ranges::copy_if(readings, std::back_inserter(clear), [&](const shot::Tone& tone) { return tone.level_db >= *faintest_db; });
  return shot::ring_score(scored.family, clear, heard_together, settings).score.has_value();
}

void set_score(const shot::RingScore& score, const Scored& scored, double offset_db, shot::Shot& shot) {
  shot.*scored.score = score.score;
  shot.*scored.parts = score.parts;
  if (auto& strength_db = (shot.*scored.parts).strength_db) *strength_db += offset_db;
  if (score.score) std::erase_if(shot.findings, [&](const Finding& finding) { return masks(finding, scored.quantity); });
}

/// Low frequencies of `low`'s, high ones of `high`'s density.
shot::TailDensity joined(const shot::TailDensity& low, const shot::TailDensity& high, double border_hz, double offset_db) {
  shot::TailDensity density;
  for (const auto* part : {&low, &high}) {
    for (std::size_t k = 0; k < part->frequency_hz.size(); ++k) {
      if ((static_cast<double>(part->frequency_hz[k]) >= border_hz) != (part == &high)) continue;
      density.frequency_hz.push_back(part->frequency_hz[k]);
      density.density_db.push_back(part->density_db[k] + static_cast<float>(offset_db));
      density.noise_db.push_back(part->noise_db[k] + static_cast<float>(offset_db));
    }
  }
  return density;
}

}  // namespace

/// Hum and middle are searched in the tails listened to for hum, ping in those for ping.
struct TonePool::Search {
  shot::TailTones low;
  shot::TailTones high;
  std::vector<shot::Tone> tones;
};

bool TonePool::wants(const Session& session, std::size_t block, std::size_t shot) {
  const SessionBlock& own = session.blocks[block];
  return own.dropped.empty() && (listened(own.shots[shot].shot, kHum) || listened(own.shots[shot].shot, kPing));
}

void TonePool::add(const Session& session, std::size_t block, std::size_t shot, const shot::Clip& clip,
                   const shot::Scale& scale) {
  if (!wants(session, block, shot)) return;
  const shot::Shot& measured = session.blocks[block].shots[shot].shot;
  const shot::PressureClip pressure(clip, scale);
  const double edge = static_cast<double>(clip.onset_sample - clip.first_sample) + clip.onset_fraction;
  heard_.push_back({block, shot, listened(measured, kHum), listened(measured, kPing), scale.printed_offset_db(),
                    shot::cut_tail(pressure.all(), clip.sample_rate_hz, edge, shot::undisturbed_s(clip, settings_), settings_)});
}

TonePool::Search TonePool::search(const std::vector<const Heard*>& heard) const {
  const auto find = [&](bool ping) {
    std::vector<shot::TailSound> tails;
    // Shots of another sample rate can't be laid over these; they are read all the same. The commonest rate is searched.
    const auto rate = [&](const Heard* entry) { return ping ? entry->tail.high.rate_hz : entry->tail.low.rate_hz; };
    const auto has = [&](const Heard* entry) { return ping ? entry->ping : entry->hum; };
    for (const Heard* lead : heard) {
      if (!has(lead)) continue;
      std::vector<shot::TailSound> alike;
      for (const Heard* entry : heard) {
        if (has(entry) && std::abs(rate(entry) / rate(lead) - 1.0) < kSameRate) alike.push_back(entry->tail);
      }
      if (alike.size() > tails.size()) tails = std::move(alike);
      if (2 * tails.size() >= heard.size()) break;
    }
    return tails.empty() ? shot::TailTones{} : shot::find_tones(tails, settings_);
  };
  Search result;
  const bool same = std::ranges::all_of(heard, [](const Heard* entry) { return entry->hum && entry->ping; });
  result.low = find(false);
  result.high = same ? result.low : find(true);
  result.tones = of_band(result.low.tones, false);
  const auto ping = of_band(result.high.tones, true);
  result.tones.insert(result.tones.end(), ping.begin(), ping.end());
  std::ranges::stable_sort(result.tones, std::ranges::greater{}, &shot::Tone::level_db);
  return result;
}

void TonePool::describe(const Search& own, bool mixed, double offset_db, const std::vector<double>& levels_db, shot::Tone& tone,
                        const std::vector<ToneReading>& readings) {
  const auto same = std::ranges::find_if(own.tones, [&](const shot::Tone& one) {
    return std::abs(tone.frequency_hz / one.frequency_hz - 1.0) <= kOneListedTone;
  });
  if (same != own.tones.end()) {  // as its own tails show it
    tone = *same;
    tone.level_db += offset_db;
    if (mixed) tone.level_db = stats::mean(levels_db).value_or(tone.level_db);
    return;
  }
  tone.level_db = stats::mean(levels_db).value_or(tone.level_db);
  std::vector<double> rings_s;
  for (const ToneReading& reading : readings) {
    if (reading.ring_time_s) rings_s.push_back(*reading.ring_time_s);
  }
  tone.ring_time_s = stats::mean(rings_s).value_or(tone.ring_time_s);
}

std::vector<shot::Tone> TonePool::common_list(const Search& together, const std::vector<Search>& each) {
  std::vector<shot::Tone> list = together.tones;
  for (const Search& own : each) {
    for (const shot::Tone& tone : own.tones) {
      const bool known = std::ranges::any_of(list, [&](const shot::Tone& one) {
        return std::abs(tone.frequency_hz / one.frequency_hz - 1.0) <= kOneListedTone;
      });
      if (!known) list.push_back(tone);
    }
  }
  std::ranges::stable_sort(list, std::ranges::greater{}, &shot::Tone::level_db);
  return list;
}

std::vector<shot::Tone> TonePool::as_shown_by(const Search& own, std::vector<shot::Tone> list) {
  for (shot::Tone& tone : list) {
    const auto same = std::ranges::find_if(own.tones, [&](const shot::Tone& one) {
      return std::abs(tone.frequency_hz / one.frequency_hz - 1.0) <= kOneListedTone;
    });
    if (same != own.tones.end()) tone = *same;
  }
  return list;
}

std::vector<SetUpTones> TonePool::read(Session& session) {
  // The same end for all set-ups compared, band by band.
  double low_end_s = std::numeric_limits<double>::infinity();
  double high_end_s = low_end_s;
  for (const Heard& entry : heard_) {
    if (entry.hum) low_end_s = std::min(low_end_s, entry.tail.low.end_s);
    if (entry.ping) high_end_s = std::min(high_end_s, entry.tail.high.end_s);
  }
  for (Heard& entry : heard_) {
    entry.tail.low.end_s = std::min(entry.tail.low.end_s, low_end_s);
    entry.tail.high.end_s = std::min(entry.tail.high.end_s, high_end_s);
  }
  std::vector<SetUpTones> all;
  std::vector<std::string> setups;
  std::vector<std::vector<const Heard*>> heard_of;
  std::vector<Search> each;
  std::vector<const Heard*> everything;
  for (const std::string& setup : session.setups()) {
    std::vector<const Heard*> heard;
    for (const Heard& entry : heard_) {
      if (session.blocks[entry.block].setup == setup) heard.push_back(&entry);
    }
    if (heard.empty()) continue;
    everything.insert(everything.end(), heard.begin(), heard.end());
    setups.push_back(setup);
    each.push_back(search(heard));
    heard_of.push_back(std::move(heard));
  }
  if (setups.empty()) return all;
  const auto list = setups.size() == 1 ? each[0].tones : common_list(search(everything), each);
  // Not found by every set-up's own tails: then a reading fainter than its shot would let through alone may be noise, with any of them.
  std::vector<bool> doubted(list.size(), false);
  for (std::size_t k = 0; k < list.size(); ++k) {
    doubted[k] = std::ranges::any_of(each, [&](const Search& own) {
      return std::ranges::none_of(own.tones, [&](const shot::Tone& one) {
        return std::abs(list[k].frequency_hz / one.frequency_hz - 1.0) <= kOneListedTone;
      });
    });
  }
  for (std::size_t own = 0; own < setups.size(); ++own) {
    const std::string& setup = setups[own];
    const auto& heard = heard_of[own];
    const Search& found = each[own];
    // Levels of two scales have no mean: of the calibrated shots when there are any. Each reading keeps its own.
    const double offset_db = (*std::ranges::max_element(heard, {}, &Heard::offset_db))->offset_db;
    std::vector<const Heard*> shown;
    std::ranges::copy_if(heard, std::back_inserter(shown), [&](const Heard* entry) { return entry->offset_db == offset_db; });
    const bool mixed = shown.size() < heard.size();
    const Search of_scale = mixed ? search(shown) : found;
    SetUpTones tones;
    tones.setup = setup;
    tones.tails = heard.size();
    tones.tail = joined(of_scale.low.density, of_scale.high.density, settings_.ping_low_hz, offset_db);
    const auto own_list = as_shown_by(found, list);
    for (const shot::Tone& tone : own_list) {
      tones.tones.push_back({tone, {}, {}});
      tones.tones.back().tone.level_db += offset_db;
    }
    std::vector<std::vector<double>> shown_levels_db(tones.tones.size());
    for (const Heard* entry : heard) {
      auto readings = shot::read_tones(entry->tail, own_list, settings_);
      std::optional<shot::TailTones> alone;
      const auto faintest_db = [&](bool ping) {
        if (!alone) alone = shot::find_tones(entry->tail, settings_);
        return ping ? alone->faintest_ping_db : alone->faintest_hum_db;
      };
      std::erase_if(readings, [&](const shot::Tone& reading) {
        const auto nearest = std::ranges::min_element(own_list, {}, [&](const shot::Tone& tone) { return std::abs(tone.frequency_hz - reading.frequency_hz); });
        if (!doubted[static_cast<std::size_t>(nearest - own_list.begin())]) return false;
        const auto faintest = faintest_db(reading.family == ToneFamily::ping);
        // The faintest is meant for a ring of kFaintRing_s; a shorter one must be stronger to show as much.
        const double shorter_db = std::max(0.0, 20.0 * std::log10(shot::kFaintRing_s / nearest->ring_time_s));
        return !faintest || reading.level_db < *faintest + shorter_db;
      });
      std::vector<bool> seen(tones.tones.size(), false);
      for (const shot::Tone& reading : readings) {
        const auto nearest = std::ranges::min_element(tones.tones, {}, [&](const SetUpTone& tone) {
          return std::abs(tone.tone.frequency_hz - reading.frequency_hz);
        });
        if (entry->offset_db == offset_db) {
          shown_levels_db[static_cast<std::size_t>(nearest - tones.tones.begin())].push_back(reading.level_db + offset_db);
        }
        seen[static_cast<std::size_t>(nearest - tones.tones.begin())] = true;
        const bool own_ring = std::abs(reading.ring_time_s / nearest->tone.ring_time_s - 1.0) > kSameRing;
        nearest->readings.push_back({entry->block, entry->shot, reading.level_db + entry->offset_db,
                                     own_ring ? std::optional(reading.ring_time_s) : std::nullopt});
      }
      for (std::size_t k = 0; k < seen.size(); ++k) {
        const bool ping = tones.tones[k].tone.family == ToneFamily::ping;
        if (seen[k] || !(ping ? entry->ping : entry->hum)) continue;
        auto at_most_db = faintest_db(ping);
        if (at_most_db) *at_most_db += entry->offset_db;
        tones.tones[k].hidden.push_back({entry->block, entry->shot, at_most_db});
      }
      shot::Shot& measured = session.blocks[entry->block].shots[entry->shot].shot;
      const auto score = [&](const Scored& scored, const shot::TailTones& heard_together) {
        if (!(measured.*scored.score) && !told_here(scored, entry->tail, readings, heard_together, settings_)) return;
        set_score(shot::ring_score(scored.family, readings, heard_together, settings_), scored, entry->offset_db, measured);
      };
      if (entry->hum) score(kHum, found.low);
      if (entry->ping) score(kPing, found.high);
    }
    for (std::size_t k = 0; k < tones.tones.size(); ++k) describe(found, mixed, offset_db, shown_levels_db[k], tones.tones[k].tone, tones.tones[k].readings);
    const auto silent = std::ranges::stable_partition(tones.tones, [](const SetUpTone& tone) { return !tone.readings.empty(); });
    tones.silent.assign(silent.begin(), silent.end());
    tones.tones.erase(silent.begin(), silent.end());
    std::ranges::stable_sort(tones.tones, std::ranges::greater{}, [](const SetUpTone& tone) { return tone.tone.level_db; });
    all.push_back(std::move(tones));
  }
  return all;
}

}  // namespace ringfall::compare
