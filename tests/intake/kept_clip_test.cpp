// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/kept_clip.h"

#include <gtest/gtest.h>

#include "audio/sound_bytes.h"
#include "base/failure.h"
#include "intake/logbook_intake.h"
#include "shot/synthetic_shot.h"
#include "support/test_folder.h"

namespace ringfall::intake {
namespace {

constexpr double kRate_hz = 48000.0;

logbook::CodedClip invented_clip(int number, audio::SampleCoding coding) {
  std::vector<double> wave(static_cast<std::size_t>(2.0 * kRate_hz), 0.0);
  shot::add_white_noise(wave, 35.0, static_cast<std::uint64_t>(number));
  shot::add_synthetic_shot(wave, kRate_hz, 0.8, {}, static_cast<std::uint64_t>(number));
  logbook::CodedClip clip;
  clip.onset_s = 0.8;
  clip.coding = coding == audio::SampleCoding::wav_float ? "wav" : "flac";
  clip.bytes = audio::sound_bytes(shot::to_full_scale(wave, 118.0), kRate_hz, coding);
  clip.places.sample_rate_hz = kRate_hz;
  clip.places.onset_sample = 38400;
  return clip;
}

// RFC 9639 9.3: each FLAC frame ends in a CRC-16 of its bytes.
TEST(KeptClip, DamageIsSeenAndTheShotNamed) {
  const TestFolder folder;
  auto book = logbook::Logbook::start(folder.path("book"), {"made-up bow", "", "", std::nullopt, 20.0, "", std::nullopt});
  book.add_setup({"bare", "", false, std::nullopt});
  book.add_block({"bare", "a.wav", kRate_hz, "", "", {}});
  book.add_clip(1, invented_clip(1, audio::SampleCoding::flac_24_bit));
  auto flac = invented_clip(2, audio::SampleCoding::flac_24_bit);
  for (std::size_t k = 0; k < 40; ++k) flac.bytes[flac.bytes.size() / 2 + k] ^= 0x5A;
  book.add_clip(1, flac);
  auto wav = invented_clip(3, audio::SampleCoding::wav_float);
  wav.bytes.resize(wav.bytes.size() / 2);
  book.add_clip(1, wav);
  auto junk = invented_clip(4, audio::SampleCoding::wav_float);
  junk.bytes = "no sound";
  book.add_clip(1, junk);
  auto elsewhere = invented_clip(5, audio::SampleCoding::flac_24_bit);
  elsewhere.places.onset_sample = 1000000;
  book.add_clip(1, elsewhere);

  EXPECT_EQ(kept_clip(book, 1).samples.size(), 96000U);
  const auto damaged = damaged_clips(book);
  ASSERT_EQ(damaged.size(), 4U);
  for (std::size_t k = 0; k < damaged.size(); ++k) {
    EXPECT_EQ(damaged[k].shot, static_cast<std::int64_t>(k) + 2);
    EXPECT_EQ(damaged[k].block, 1);
    EXPECT_NE(damaged[k].sentence.find("the kept sound of shot " + std::to_string(k + 2) + " is damaged"), std::string::npos)
        << damaged[k].sentence;
    EXPECT_THROW(kept_clip(book, damaged[k].shot), LogbookFailure);
    EXPECT_THROW(remeasured(book, book.blocks()[0], book.blocks()[0].shots[k + 1]), LogbookFailure) << "no internal error";
  }
}

}  // namespace
}  // namespace ringfall::intake
