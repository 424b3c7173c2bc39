// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/codec_names.h"

#include <sndfile.h>

#include <algorithm>
#include <cctype>

namespace ringfall::audio {
namespace {

Codec integers(int bits, const std::string& kind) { return {std::to_string(bits) + "-bit " + kind, false, false, true, bits}; }
Codec floats(int bits) { return {std::to_string(bits) + "-bit float", false, false, false, bits}; }
Codec lossy(const std::string& name) { return {name, true, false, false, 0}; }
Codec speech(const std::string& name) { return {name, true, true, false, 0}; }

std::string upper(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return text;
}

}  // namespace

Codec sndfile_codec(int format) {
  const bool flac = (format & SF_FORMAT_TYPEMASK) == SF_FORMAT_FLAC;
  switch (format & SF_FORMAT_SUBMASK) {
    case SF_FORMAT_PCM_S8:
    case SF_FORMAT_PCM_U8:
    case SF_FORMAT_DPCM_8: return integers(8, flac ? "lossless" : "PCM");
    case SF_FORMAT_PCM_16:
    case SF_FORMAT_DPCM_16: return integers(16, flac ? "lossless" : "PCM");
    case SF_FORMAT_PCM_24: return integers(24, flac ? "lossless" : "PCM");
    case SF_FORMAT_PCM_32: return integers(32, "PCM");
    case SF_FORMAT_FLOAT: return floats(32);
    case SF_FORMAT_DOUBLE: return floats(64);
    case SF_FORMAT_ALAC_16: return integers(16, "ALAC");
    case SF_FORMAT_ALAC_20: return integers(20, "ALAC");
    case SF_FORMAT_ALAC_24: return integers(24, "ALAC");
    case SF_FORMAT_ALAC_32: return integers(32, "ALAC");
    case SF_FORMAT_VORBIS: return lossy("Vorbis");
    case SF_FORMAT_OPUS: return lossy("Opus");
    case SF_FORMAT_MPEG_LAYER_I: return lossy("MPEG layer I");
    case SF_FORMAT_MPEG_LAYER_II: return lossy("MPEG layer II");
    case SF_FORMAT_MPEG_LAYER_III: return lossy("MPEG layer III");
    case SF_FORMAT_ULAW: return speech("mu-law");
    case SF_FORMAT_ALAW: return speech("A-law");
    case SF_FORMAT_GSM610: return speech("GSM 06.10");
    case SF_FORMAT_IMA_ADPCM: return speech("IMA ADPCM");
    case SF_FORMAT_MS_ADPCM: return speech("MS ADPCM");
    case SF_FORMAT_VOX_ADPCM: return speech("VOX ADPCM");
    case SF_FORMAT_G721_32: return speech("G.721 ADPCM");
    case SF_FORMAT_G723_24:
    case SF_FORMAT_G723_40: return speech("G.723 ADPCM");
    case SF_FORMAT_NMS_ADPCM_16:
    case SF_FORMAT_NMS_ADPCM_24:
    case SF_FORMAT_NMS_ADPCM_32: return speech("NMS ADPCM");
    default: return lossy("codec of number " + std::to_string(format & SF_FORMAT_SUBMASK));
  }
}

std::string sndfile_container(int format) {
  switch (format & SF_FORMAT_TYPEMASK) {
    case SF_FORMAT_WAV:
    case SF_FORMAT_WAVEX: return "WAV";
    case SF_FORMAT_RF64: return "RF64";
    case SF_FORMAT_W64: return "W64";
    case SF_FORMAT_AIFF: return "AIFF";
    case SF_FORMAT_AU: return "AU";
    case SF_FORMAT_CAF: return "CAF";
    case SF_FORMAT_FLAC: return "FLAC";
    case SF_FORMAT_OGG: return "Ogg";
    case SF_FORMAT_MPEG: return "MP3";
    default: break;
  }
  SF_FORMAT_INFO info{};
  info.format = format & SF_FORMAT_TYPEMASK;
  const bool known = sf_command(nullptr, SFC_GET_FORMAT_INFO, &info, sizeof info) == 0 && info.name != nullptr;
  return known ? info.name : "sound file";
}

Codec ffprobe_codec(const std::string& codec_name, int bits) {
  const auto begins = [&codec_name](const char* text) { return codec_name.starts_with(text); };
  if (begins("pcm_mulaw")) return speech("mu-law");
  if (begins("pcm_alaw")) return speech("A-law");
  if (begins("pcm_f")) return floats(bits > 32 ? 64 : 32);
  if (begins("pcm_")) return integers(bits > 0 ? bits : 16, "PCM");
  if (codec_name == "alac") return integers(bits > 0 ? bits : 16, "ALAC");
  if (codec_name == "flac") return integers(bits > 0 ? bits : 16, "lossless");
  if (codec_name == "amr_nb") return speech("AMR");
  if (codec_name == "amr_wb") return speech("AMR wideband");
  for (const char* kind : {"gsm", "adpcm", "speex", "ilbc", "evrc", "qcelp", "g723", "g726", "g729", "sbc", "msbc", "silk"}) {
    if (begins(kind)) return speech(upper(codec_name));
  }
  if (codec_name == "vorbis") return lossy("Vorbis");
  if (codec_name == "opus") return lossy("Opus");
  if (codec_name == "mp3") return lossy("MPEG layer III");
  return lossy(upper(codec_name));
}

}  // namespace ringfall::audio
