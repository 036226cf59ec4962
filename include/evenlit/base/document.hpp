#pragma once

#include <string>
#include <vector>

namespace evenlit {

// What is to be said, without how it is set: for a terminal, a page of HTML or sheets of paper alike.

struct Column {
  enum class Kind {
    text,
    number,
    tick
  };  ///< `tick`: a box to be ticked off by hand, or a word where there
      ///< is nothing to tick

  std::string title;
  Kind kind = Kind::text;
};

/// Rows of as many cells as there are columns; the first cell of a row names it. A line feed in a cell is a place where
/// it may be broken.
struct Table {
  std::string caption;
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
};

struct Section {
  std::string title;
  std::vector<std::string> warnings;    ///< paragraphs that must not be missed
  std::vector<std::string> paragraphs;  ///< behind the warnings
  std::vector<Table> tables;            ///< behind the paragraphs
};

struct Document {
  std::string title;
  std::vector<Section> sections;
};

}  // namespace evenlit
