// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/parts/fonts.h"

#include <fontconfig/fontconfig.h>

#include <filesystem>
#include <memory>

namespace ringfall::desk {
namespace {

struct DropPattern {
  void operator()(FcPattern* pattern) const { FcPatternDestroy(pattern); }
};

/// The file of exactly this family and weight; empty when it is not installed.
std::string file_of(FcConfig* config, const char* family, int weight) {
  const std::unique_ptr<FcPattern, DropPattern> wanted(FcPatternCreate());
  FcPatternAddString(wanted.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>(family));
  FcPatternAddInteger(wanted.get(), FC_WEIGHT, weight);
  FcPatternAddInteger(wanted.get(), FC_SLANT, FC_SLANT_ROMAN);
  FcConfigSubstitute(config, wanted.get(), FcMatchPattern);
  FcDefaultSubstitute(wanted.get());
  FcResult result = FcResultNoMatch;
  const std::unique_ptr<FcPattern, DropPattern> found(FcFontMatch(config, wanted.get(), &result));
  FcChar8* name = nullptr;
  FcChar8* file = nullptr;
  if (!found || FcPatternGetString(found.get(), FC_FAMILY, 0, &name) != FcResultMatch ||
      FcPatternGetString(found.get(), FC_FILE, 0, &file) != FcResultMatch) {
    return {};
  }
  // fontconfig always offers something: only the family asked for will do, and only a file that can be read.
  const std::string got(reinterpret_cast<const char*>(name));
  const std::string path(reinterpret_cast<const char*>(file));
  std::error_code failed;
  const bool there = std::filesystem::file_size(path, failed) > 0 && !failed;
  return got == family && there ? path : std::string{};
}

// Latin with its extensions, Greek, dashes and quotation marks, arrows, mathematical signs.
constexpr ImWchar kLetters[] = {0x20, 0x17F, 0x370, 0x3FF, 0x2010, 0x2044, 0x2070, 0x209C, 0x2190, 0x21FF, 0x2200, 0x22FF, 0};
constexpr ImWchar kFigures[] = {0x20, 0x20, 0x2B, 0x3A, 0x2013, 0x2013, 0x2212, 0x2212, 0};

ImFont* add(ImFontAtlas& atlas, const std::string& file, const std::string& signs, float size_px, const ImWchar* range) {
  if (file.empty()) {
    ImFontConfig plain;
    plain.SizePixels = size_px;
    return atlas.AddFontDefault(&plain);
  }
  ImFontConfig config;
  config.OversampleH = size_px > 40.0F ? 1 : 2;
  config.OversampleV = 1;
  ImFont* font = atlas.AddFontFromFileTTF(file.c_str(), size_px, &config, range);
  if (!signs.empty() && signs != file && range == kLetters) {
    config.MergeMode = true;
    atlas.AddFontFromFileTTF(signs.c_str(), 0.92F * size_px, &config, range);
  }
  return font;
}

}  // namespace

FontFiles find_fonts() {
  FontFiles files;
  FcConfig* config = FcInitLoadConfigAndFonts();
  if (config == nullptr) return files;
  files.signs = file_of(config, "DejaVu Sans", FC_WEIGHT_REGULAR);
  files.regular = file_of(config, "Lato", FC_WEIGHT_REGULAR);
  files.heavy = file_of(config, "Lato", FC_WEIGHT_BOLD);
  if (files.regular.empty()) files.regular = files.signs;
  if (files.heavy.empty()) files.heavy = file_of(config, "DejaVu Sans", FC_WEIGHT_BOLD);
  if (files.heavy.empty()) files.heavy = files.regular;
  FcConfigDestroy(config);
  return files;
}

Fonts load_fonts(ImFontAtlas& atlas, const FontFiles& files, float scale) {
  const auto letters = [&](const std::string& file, float size) { return add(atlas, file, files.signs, size * scale, kLetters); };
  Fonts fonts;
  fonts.text = letters(files.regular, 17.0F);  // the first is ImGui's own default
  fonts.small = letters(files.regular, 14.0F);
  fonts.strong = letters(files.heavy, 17.0F);
  fonts.title = letters(files.heavy, 25.0F);
  fonts.figure = letters(files.heavy, 40.0F);
  fonts.huge = add(atlas, files.heavy, {}, 118.0F * scale, kFigures);
  fonts.picture = {letters(files.regular, 12.0F), letters(files.regular, 15.0F), letters(files.regular, 20.0F)};
  atlas.Build();
  return fonts;
}

}  // namespace ringfall::desk
