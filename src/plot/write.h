// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "plot/picture.h"

namespace ringfall::plot {

/// Readers of a Picture that make files. The same picture always gives the same bytes (on one machine: PDF and
/// PNG depend on its Cairo and its DejaVu Sans). Fails: check() on a picture that breaks picture.h's promises.

/// An <svg> element without XML declaration, ready to stand inside HTML. Text stays text, images are PNG data
/// URIs. All its ids begin with `id_prefix` ([A-Za-z][A-Za-z0-9_-]*), so that several fit into one page.
/// `description` is for people who can't see it (<title>); may be empty. Tests: SvgTest.
std::string svg_text(const Picture& picture, Theme theme, std::string_view id_prefix,
                     std::string_view description = {});

/// A PDF with one page a picture, text searchable; `title` goes into its metadata, the date is fixed.
/// Tests: CairoTest.
std::string pdf_bytes(std::span<const Picture> pictures, Theme theme, std::string_view title);

/// A PNG of `pixels_per_pt` (0.5 .. 8; 2 is 144 dpi). Tests: CairoTest.
std::string png_bytes(const Picture& picture, Theme theme, double pixels_per_pt = 2.0);

/// The marks as lines of text with positions to 0.01 pt, for golden tests.
std::string trace_text(const Picture& picture);

/// Writes by a temporary file beside `path` and a rename: whoever reads sees all or nothing.
/// Fails: FileFailure, leaving no temporary file and an old file as it was. Tests: WriteTest.
void write_whole_file(const std::filesystem::path& path, std::string_view bytes);

/// Picture to file. An SVG file begins with an XML declaration. Fails: FileFailure.
void write_svg(const std::filesystem::path& path, const Picture& picture, Theme theme = Theme::light);
void write_pdf(const std::filesystem::path& path, std::span<const Picture> pictures, std::string_view title,
               Theme theme = Theme::light);
void write_png(const std::filesystem::path& path, const Picture& picture, Theme theme = Theme::light,
               double pixels_per_pt = 2.0);

}  // namespace ringfall::plot
