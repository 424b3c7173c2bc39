// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "plot/figure.h"

namespace ringfall::report {

/// A report as a document: what each face (page, paper) sets in its own way. All texts are plain, nothing is escaped.

enum class WordsStyle { plain, verdict, small };

struct Words {
  std::string text;
  WordsStyle style = WordsStyle::plain;
};

/// Where a piece is set: what somebody wants to look up is on the page only, a paper is short.
enum class Faces { all, page };

struct Points {
  std::vector<std::string> items;
  Faces faces = Faces::all;
};

struct TableColumn {
  std::string head;
  bool number = false;  ///< set flush right
};

/// The first column heads its row; every row has a cell for every column.
struct Table {
  std::string caption;
  std::vector<TableColumn> columns;
  std::vector<std::vector<std::string>> rows;
  Faces faces = Faces::all;
};

struct Drawn {
  std::string id;           ///< unique in the document
  plot::Figure figure;
  std::string description;  ///< for people who can't see it
  std::string caption;
};

enum class Across { one, two, three };

/// Figures side by side where there is room.
struct Drawings {
  std::vector<Drawn> figures;
  Across across = Across::two;
  Faces faces = Faces::all;
};

/// Sound to play, where a face can.
struct Played {
  std::string label;
  std::string media_type;
  std::string bytes;
};
struct Sounds {
  std::vector<Played> sounds;
};

using Piece = std::variant<Words, Points, Table, Drawings, Sounds>;

struct Section {
  std::string id;
  std::string heading;
  std::vector<Piece> pieces;
};

struct Document {
  std::string title;
  std::vector<Piece> opening;  ///< the first page: a reader with ten seconds reads no further
  std::vector<Section> sections;
};

}  // namespace ringfall::report
