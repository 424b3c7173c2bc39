// SPDX-License-Identifier: GPL-3.0-or-later
#include "hard_ground/kinds.h"

#include <utility>

#include "hard_ground/sounds.h"

namespace ringfall::hard_ground {
namespace {

/// Draws a scene's free quantities from its own seed.
template <typename Change>
std::function<Scene(std::uint64_t)> with(Change change) {
  return [change](std::uint64_t seed) {
    Dice dice(seed + 777);
    Scene scene;
    scene.seed = seed;
    scene.background_db = dice.between(26.0, 40.0);
    scene.slope_db = dice.between(3.0, 6.0);
    scene.lag_s = dice.between(0.33, 0.50);
    change(scene, dice);
    return scene;
  };
}

}  // namespace

const std::vector<std::string>& fault_codes() {
  static const std::vector<std::string> codes = {"tail_disturbed", "gain_not_constant", "clipped", "limited", "band_limited", "noise_gate",
                                                 "low_cut", "room_limited", "coarse_steps", "dropout", "rate_tag_doubtful"};
  return codes;
}

const std::vector<Kind>& kinds() {
  static const std::vector<Kind> all = {
      {"open", "", with([](Scene&, Dice&) {})},
      {"open, noisy", "", with([](Scene& s, Dice& d) { s.background_db = d.between(42.0, 55.0); })},
      {"draw and lowering rustle", "", with([](Scene& s, Dice&) { s.rustle = true; })},
      {"quiet, 16 bits", "", with([](Scene& s, Dice& d) { s.bits = 16; s.background_db = d.between(18.0, 28.0); s.full_scale_db = 125.0; })},
      {"mains lines", "", with([](Scene& s, Dice& d) { s.mains_db = d.between(38.0, 52.0); })},
      {"fan line", "", with([](Scene& s, Dice&) { s.fan = true; })},
      {"coded with losses", "", with([](Scene& s, Dice&) { s.lossy = true; })},
      {"coded with losses, loud", "", with([](Scene& s, Dice& d) { s.lossy = true; s.peaks_at_db = d.between(-12.0, -6.0); })},
      {"steady archer", "", with([](Scene& s, Dice&) { s.spread_db = 0.4; })},
      {"early impact 70 ms", "", with([](Scene& s, Dice& d) { s.lag_s = d.between(0.06, 0.09); })},
      {"early impact 150 ms", "", with([](Scene& s, Dice& d) { s.lag_s = d.between(0.10, 0.20); })},
      {"talk in the tail", "tail_disturbed", with([](Scene& s, Dice& d) { s.talk_db = d.between(60.0, 78.0); })},
      {"second shot in the tail", "tail_disturbed", with([](Scene& s, Dice& d) { s.second_shot_below_db = d.between(6.0, 20.0); })},
      {"unheard impact", "tail_disturbed", with([](Scene& s, Dice& d) { s.impact_known = false; s.lag_s = d.between(0.10, 0.35); })},
      {"talk, room", "tail_disturbed", with([](Scene& s, Dice& d) { s.talk_db = d.between(72.0, 84.0); s.room_s = d.between(0.3, 0.6); })},
      {"gain 0.1-0.2 s", "gain_not_constant", with([](Scene& s, Dice& d) { s.gain_depth_db = d.between(6.0, 18.0); s.gain_release_s = d.between(0.1, 0.2); })},
      {"gain 0.2-0.5 s", "gain_not_constant", with([](Scene& s, Dice& d) { s.gain_depth_db = d.between(6.0, 18.0); s.gain_release_s = d.between(0.2, 0.5); })},
      {"gain 0.5-3 s", "gain_not_constant", with([](Scene& s, Dice& d) { s.gain_depth_db = d.between(6.0, 18.0); s.gain_release_s = d.between(0.5, 3.0); })},
      {"gain, rustle", "gain_not_constant", with([](Scene& s, Dice& d) { s.rustle = true; s.gain_depth_db = d.between(6.0, 18.0); s.gain_release_s = d.between(0.2, 3.0); })},
      {"clipped", "clipped", with([](Scene& s, Dice& d) { s.peaks_at_db = d.between(6.0, 16.0); })},
      {"clipped, then coded", "clipped", with([](Scene& s, Dice& d) { s.peaks_at_db = d.between(6.0, 16.0); s.lossy = true; })},
      {"limiter", "limited", with([](Scene& s, Dice& d) { s.limiter_below_db = d.between(2.0, 9.0); })},
      {"limiter, steady archer", "limited", with([](Scene& s, Dice& d) { s.limiter_below_db = d.between(2.0, 9.0); s.spread_db = 0.3; })},
      {"cut at 3.4-8 kHz", "band_limited", with([](Scene& s, Dice& d) { s.low_pass_hz = d.between(3400.0, 8000.0); })},
      {"22.05 kHz file", "band_limited", with([](Scene& s, Dice&) { s.rate_hz = 22050.0; })},
      {"noise gate", "noise_gate", with([](Scene& s, Dice&) { s.gate = true; })},
      {"low cut", "low_cut", with([](Scene& s, Dice& d) { s.low_cut_hz = d.between(90.0, 200.0); })},
      {"low cut, mains", "low_cut", with([](Scene& s, Dice& d) { s.low_cut_hz = d.between(110.0, 200.0); s.mains_db = d.between(38.0, 46.0); })},
      {"small room 0.2-0.3 s", "room_limited", with([](Scene& s, Dice& d) { s.room_s = d.between(0.2, 0.3); s.small_room = true; })},
      {"live room 0.3-0.6 s", "room_limited", with([](Scene& s, Dice& d) { s.room_s = d.between(0.3, 0.6); })},
      {"live room 0.6-1.6 s", "room_limited", with([](Scene& s, Dice& d) { s.room_s = d.between(0.6, 1.6); })},
  };
  return all;
}

}  // namespace ringfall::hard_ground
