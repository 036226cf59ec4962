#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "evenlit/base/utf8.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/set_out_report.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

using Lines = std::vector<std::string>;

constexpr int k_between = 2;  ///< columns between cells, and before the first

Lines lines_of(std::string_view text) {
  Lines lines;
  for (std::size_t end = text.find('\n'); end != std::string_view::npos; end = text.find('\n')) {
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(end + 1);
  }
  if (!text.empty()) lines.emplace_back(text);
  return lines;
}

int longest(const Lines& lines) {
  int most = 0;
  for (const std::string& line : lines) most = std::max(most, code_points(line));
  return most;
}

/// A cell filled into lines of a width; where it may be broken it is, if it is too long for one.
Lines filled_cell(const std::string& cell, int width) {
  std::string whole = cell;
  std::ranges::replace(whole, '\n', ' ');
  if (code_points(whole) <= width) return {whole};
  Lines lines;
  for (const std::string& part : lines_of(cell)) {
    for (std::string& line : lines_of(filled(part, width))) lines.push_back(shortened(line, width));
  }
  return lines;
}

/// The columns of a table as far as they are to be read.
std::vector<std::size_t> read_columns(const Table& table) {
  std::vector<std::size_t> columns;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].kind != Column::Kind::tick) columns.push_back(i);
  }
  return columns;
}

/// How wide each column is: as its cells and the longest word of its title ask, less where all are wider than a line.
std::vector<int> widths_of(const Table& table, const std::vector<std::size_t>& columns) {
  constexpr int k_narrowest = 8;
  std::vector<int> widths;
  for (const std::size_t column : columns) {
    int width = longest(lines_of(filled(table.columns[column].title, 1)));
    for (const auto& cells : table.rows) width = std::max(width, code_points(cells[column]));
    widths.push_back(width);
  }
  const int room = k_columns - k_between * static_cast<int>(columns.size());
  while (std::accumulate(widths.begin(), widths.end(), 0) > room) {
    const auto widest = std::ranges::max_element(widths);
    if (*widest <= k_narrowest) break;
    --*widest;
  }
  return widths;
}

/// Cells side by side.
std::string text_row(const std::vector<Lines>& cells, const std::vector<int>& widths,
                     const std::vector<Column::Kind>& kinds) {
  const std::size_t height = std::ranges::max(cells, {}, &Lines::size).size();
  std::string text;
  for (std::size_t line = 0; line < height; ++line) {
    std::string row;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const std::string part = line < cells[i].size() ? cells[i][line] : "";
      const std::string air(static_cast<std::size_t>(std::max(0, widths[i] - code_points(part))), ' ');
      row += std::string(k_between, ' ') + (kinds[i] == Column::Kind::number ? air + part : part + air);
    }
    row.erase(row.find_last_not_of(' ') + 1);
    text += row + '\n';
  }
  return text;
}

std::string table_text(const Table& table) {
  const std::vector<std::size_t> columns = read_columns(table);
  const std::vector<int> widths = widths_of(table, columns);
  std::vector<Column::Kind> kinds;
  std::vector<Lines> titles;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const Column& column = table.columns[columns[i]];
    kinds.push_back(column.kind);
    titles.push_back(filled_cell(column.title, widths[i]));
  }
  std::string text = fmt::format("\n{}{}", paragraph(table.caption), text_row(titles, widths, kinds));
  for (const auto& row : table.rows) {
    std::vector<Lines> cells;
    for (std::size_t i = 0; i < columns.size(); ++i) cells.push_back(filled_cell(row[columns[i]], widths[i]));
    text += text_row(cells, widths, kinds);
  }
  return text;
}

}  // namespace

std::string document_text(const Document& document) {
  std::string text = filled(document.title, k_columns, 2);
  for (const Section& section : document.sections) {
    text += heading(section.title);
    for (const std::string& warning : section.warnings) text += paragraph(fmt::format("STOP: {}", warning));
    for (const std::string& each : section.paragraphs) text += paragraph(each);
    for (const Table& table : section.tables) text += table_text(table);
  }
  return text;
}

}  // namespace evenlit
