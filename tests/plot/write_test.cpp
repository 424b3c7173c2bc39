// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/write.h"

#include <gtest/gtest.h>

#include <set>

#include "base/failure.h"
#include "plot/example_figures.h"
#include "plot/layout.h"
#include "plot/readers.h"
#include "support/test_folder.h"

namespace ringfall::plot {
namespace {

Picture words_picture(const std::string& words) {
  Picture picture{200.0, 100.0, {}};
  picture.marks.push_back(Text{{10.0, 50.0}, words, 10.0, Ink::text, Anchor::start});
  return picture;
}

/// Expat, by Python: parses a file and prints its text.
Ran parsed(const std::filesystem::path& path) {
  return run("python3 -c \"import sys, xml.etree.ElementTree as e; r = e.parse('" + path.string() +
             "').getroot(); print(r.tag, '|'.join(r.itertext()))\"");
}

TEST(SvgTest, ParsesAsXmlAndKeepsItsText) {
  const TestFolder scratch;
  const std::filesystem::path folder = scratch.str();
  for (const Example& example : example_figures()) {
    const auto path = folder / (example.name + ".svg");
    write_svg(path, layout(example.figure).picture);
    const Ran ran = parsed(path);
    EXPECT_EQ(ran.status, 0) << example.name << ran.output;
    EXPECT_EQ(ran.output.find("{http://www.w3.org/2000/svg}svg"), 0u) << ran.output;
    EXPECT_NE(ran.output.find(example.figure.title), std::string::npos);
  }
  const auto path = folder / "odd.svg";
  const std::string odd = "5 < 6 & \"7\" > '\xc2\xb5  Pa' \xe2\x80\x93 dB";
  write_svg(path, words_picture(odd + "\x01\xff"));
  const Ran ran = parsed(path);
  EXPECT_EQ(ran.status, 0) << ran.output;
  EXPECT_NE(ran.output.find(odd), std::string::npos) << ran.output;
}

TEST(SvgTest, IdsOfTwoPicturesDoNotClash) {
  const Picture picture = layout(example_figures().front().figure).picture;
  std::set<std::string> ids;
  std::size_t count = 0;
  for (const std::string prefix : {"shot1", "shot2"}) {
    const std::string svg = svg_text(picture, Theme::light, prefix, "a & b");
    EXPECT_EQ(svg.find("<svg"), 0u);
    EXPECT_NE(svg.find("<title>a &amp; b</title>"), std::string::npos);
    for (std::size_t at = svg.find(" id=\""); at != std::string::npos; at = svg.find(" id=\"", at + 1)) {
      const std::string id = svg.substr(at + 5, svg.find('"', at + 5) - at - 5);
      EXPECT_TRUE(id.starts_with(prefix)) << id;
      EXPECT_NE(svg.find("url(#" + id + ")"), std::string::npos);
      ids.insert(id);
      ++count;
    }
  }
  EXPECT_GE(count, 4u);
  EXPECT_EQ(ids.size(), count);
  EXPECT_THROW(svg_text(picture, Theme::light, ""), InternalError);
}

// Reference: an independent decoder (Python's base64) and the PNG signature, ISO/IEC 15948 5.2.
TEST(SvgTest, ImagesAreEmbeddedPng) {
  for (const std::size_t columns : {1u, 2u, 3u, 7u}) {
    Picture picture{50.0, 50.0, {}};
    picture.marks.push_back(Image{{0, 0, 50, 50}, columns, 1, std::vector<std::uint8_t>(columns, 200)});
    const std::string svg = svg_text(picture, Theme::light, "p");
    const std::size_t start = svg.find("base64,") + 7;
    const std::string code = svg.substr(start, svg.find('"', start) - start);
    const Ran ran = run("python3 -c \"import base64, struct; b = base64.b64decode('" + code +
                        "', validate=True); print(b[1:4], struct.unpack('>II', b[16:24]), b[-8:-4])\"");
    EXPECT_EQ(ran.output, "b'PNG' (" + std::to_string(columns) + ", 1) b'IEND'\n");
  }
}

TEST(CairoTest, PdfHasItsPagesAndSearchableText) {
  const TestFolder scratch;
  const std::filesystem::path folder = scratch.str();
  std::vector<Picture> pictures;
  for (const Example& example : example_figures()) pictures.push_back(layout(example.figure).picture);
  const auto path = folder / "all.pdf";
  write_pdf(path, pictures, "All \xc2\xb5");
  EXPECT_EQ(bytes_of(path).substr(0, 5), "%PDF-");
  if (run("pdftotext -v").status != 0) GTEST_SKIP() << "no poppler";
  const Ran text = run("pdftotext -layout '" + path.string() + "' -");
  for (const std::string words : {"One shot", "loud edge", "Level (dB re full scale)", "\xc2\xb1" "1 dB", "Season", "no data"}) {
    EXPECT_NE(text.output.find(words), std::string::npos) << words;
  }
  const Ran info = run("pdfinfo '" + path.string() + "'");
  EXPECT_NE(info.output.find("Pages:           " + std::to_string(pictures.size())), std::string::npos) << info.output;
}

TEST(CairoTest, PngHasItsSizeAndIsNotBlank) {
  const Picture picture = layout(example_figures().front().figure).picture;
  const std::string png = png_bytes(picture, Theme::light, 2.0);
  // ISO/IEC 15948: width and height are big-endian at bytes 16 and 20.
  const auto number = [&](std::size_t at) {
    unsigned value = 0;
    for (std::size_t i = at; i < at + 4; ++i) value = value << 8 | static_cast<unsigned char>(png.at(i));
    return value;
  };
  EXPECT_EQ(png.substr(0, 8), "\x89PNG\r\n\x1a\n");
  EXPECT_EQ(number(16), 960u);
  EXPECT_EQ(number(20), 460u);
  const std::string blank = png_bytes(Picture{picture.width_pt, picture.height_pt, {}}, Theme::light, 2.0);
  EXPECT_GT(png.size(), 5 * blank.size());
  EXPECT_NE(png_bytes(picture, Theme::dark, 2.0), png);
}

TEST(CairoTest, AnImageWithoutAllItsPixelsIsABrokenPromise) {
  Picture picture{50.0, 50.0, {}};
  picture.marks.push_back(Image{{0, 0, 50, 50}, 4, 4, {1, 2, 3}});
  EXPECT_THROW(png_bytes(picture, Theme::light), InternalError);
  EXPECT_THROW(pdf_bytes({}, Theme::light, ""), InternalError);
}

TEST(WriteTest, SameFigureSameBytes) {
  for (const Example& example : example_figures()) {
    const Picture a = layout(example.figure).picture;
    const Picture b = layout(example.figure).picture;
    EXPECT_EQ(trace_text(a), trace_text(b));
    EXPECT_EQ(svg_text(a, Theme::light, "p"), svg_text(b, Theme::light, "p"));
    EXPECT_EQ(png_bytes(a, Theme::light), png_bytes(b, Theme::light));
    EXPECT_EQ(pdf_bytes(std::span(&a, 1), Theme::light, "t"), pdf_bytes(std::span(&b, 1), Theme::light, "t"));
  }
}

TEST(WriteTest, FailuresNameTheFileAndLeaveNothing) {
  const TestFolder scratch;
  const std::filesystem::path folder = scratch.str();
  const Picture picture = words_picture("x");
  try {
    write_svg(folder / "missing" / "a.svg", picture);
    FAIL();
  } catch (const FileFailure& failure) {
    EXPECT_NE(std::string(failure.what()).find("a.svg"), std::string::npos);
  }
  // The name is taken by a folder: the rename fails, the temporary file goes.
  std::filesystem::create_directories(folder / "taken.png" / "inside");
  EXPECT_THROW(write_png(folder / "taken.png", picture), FileFailure);
  EXPECT_FALSE(std::filesystem::exists(folder / "taken.png.part"));
  write_whole_file(folder / "a.txt", "old");
  write_whole_file(folder / "a.txt", "new");
  EXPECT_EQ(bytes_of(folder / "a.txt"), "new");
}

}  // namespace
}  // namespace ringfall::plot
