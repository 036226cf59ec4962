#include "evenlit/drawing/document_pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <string_view>

#include "evenlit/drawing/paper.hpp"
#include "evenlit/drawing/text.hpp"
#include "plan_view.hpp"
#include "sheet.hpp"

namespace evenlit {
namespace {

constexpr double k_foot = 44;
constexpr double k_bottom = k_paper_height - k_foot;
constexpr double k_heading_text = 30;
constexpr double k_body_text = 20;
constexpr double k_foot_text = 18;
constexpr double k_leading = 1.35;  // from line to line, of the text's size
constexpr double k_pad = 9;         // between a cell's text and its column's edge
constexpr double k_row_pad = 7;
constexpr double k_box = 22;  // side of a box to be ticked

using Lines = std::vector<std::string>;

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    if (end > 0) words.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

/// Words filled into lines; of a word that is longer than a line as much as fits.
void fill_lines(Lines& lines, std::string_view text, double size, Weight weight, double width) {
  std::string line;
  for (const std::string_view word : words_of(text)) {
    const std::string longer = line.empty() ? std::string(word) : line + ' ' + std::string(word);
    if (line.empty() || text_width(longer, size, weight) <= width) {
      line = longer;
      continue;
    }
    lines.push_back(elided(line, size, weight, width));
    line = word;
  }
  lines.push_back(elided(line, size, weight, width));
}

/// A text with line feeds, filled into lines of a width.
Lines lines_of(std::string_view text, double size, Weight weight, double width) {
  Lines lines;
  while (true) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    fill_lines(lines, text.substr(0, end), size, weight, width);
    if (end == text.size()) return lines;
    text.remove_prefix(end + 1);
  }
}

/// How a table is set.
struct TableSetting {
  double size = k_body_text;
  std::vector<double> widths;

  [[nodiscard]] double head_size() const { return std::max(k_foot_text - 2, size - 4); }
};

double widest_line(const std::string& cell, double size, Weight weight) {
  double widest = 0;
  std::string_view rest = cell;
  while (true) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    widest = std::max(widest, text_width(rest.substr(0, end), size, weight));
    if (end == rest.size()) return widest;
    rest.remove_prefix(end + 1);
  }
}

Weight weight_of(std::size_t column) { return column == 0 ? Weight::bold : Weight::regular; }

/// Each column as wide as its widest cell and the longest word of its title.
TableSetting natural_setting(const Table& table, double size) {
  TableSetting setting{size, {}};
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    double width = table.columns[i].kind == Column::Kind::tick ? k_box : 0;
    for (const std::string_view word : words_of(table.columns[i].title)) {
      width = std::max(width, text_width(word, setting.head_size(), Weight::bold));
    }
    for (const auto& cells : table.rows) width = std::max(width, widest_line(cells[i], size, weight_of(i)));
    setting.widths.push_back(width + 2 * k_pad);
  }
  return setting;
}

double sum(const std::vector<double>& widths) { return std::accumulate(widths.begin(), widths.end(), 0.0); }

/// The table with every cell on one line.
Table unbroken(Table table) {
  for (auto& cells : table.rows) {
    for (std::string& cell : cells) std::ranges::replace(cell, '\n', ' ');
  }
  return table;
}

/// The table as it is set: its cells on one line each where the paper is wide enough for large type.
Table arranged(const Table& table) {
  constexpr double k_large = 22;
  Table flat = unbroken(table);
  return sum(natural_setting(flat, k_large).widths) <= k_paper_width ? flat : table;
}

/// The largest type in which a table fits beside itself, its widest columns broken where none does.
TableSetting setting_of(const Table& table) {
  constexpr double k_most_air = 34;  // that a column gets beyond what it needs
  TableSetting setting;
  for (const double size : {24.0, 22.0, 20.0, 18.0}) {
    setting = natural_setting(table, size);
    if (sum(setting.widths) <= k_paper_width) break;
  }
  while (sum(setting.widths) > k_paper_width) {
    *std::ranges::max_element(setting.widths) -= std::min(8.0, sum(setting.widths) - k_paper_width);
  }
  const double air = (k_paper_width - sum(setting.widths)) / static_cast<double>(setting.widths.size());
  for (double& width : setting.widths) width += std::min(air, k_most_air);
  return setting;
}

/// Sheets as they fill.
class Pages {
 public:
  Pages(std::string title, const Drawing& picture) : title_(std::move(title)) {
    sheets_.emplace_back().items = picture.items;
    y_ = picture.height;
  }

  void add(const Section& section) {
    constexpr double k_with_heading = 170;  // what must still fit below a heading
    y_ += 26;
    need(k_heading_text * k_leading + k_with_heading);
    y_ += k_heading_text;
    sheet().write(elided(section.title, k_heading_text, Weight::bold, k_paper_width), 0, y_, k_heading_text,
                  Weight::bold, k_dark);
    y_ += k_heading_text * (k_leading - 1) + 4;
    for (const std::string& warning : section.warnings) add_warning("STOP: " + warning);
    for (const std::string& paragraph : section.paragraphs) add_paragraph(paragraph);
    for (const Table& table : section.tables) add_table(arranged(table));
  }

  [[nodiscard]] std::vector<Drawing> finished() && {
    std::vector<Drawing> pages;
    for (std::size_t i = 0; i < sheets_.size(); ++i) {
      const std::string number = fmt::format("sheet {} of {}", i + 1, sheets_.size());
      const double room = k_paper_width - text_width(number, k_foot_text, Weight::regular) - 20;
      sheets_[i].write(elided(title_, k_foot_text, Weight::regular, room), 0, k_paper_height - 8, k_foot_text,
                       Weight::regular, k_dark);
      sheets_[i].write(number, k_paper_width, k_paper_height - 8, k_foot_text, Weight::regular, k_dark, Anchor::right);
      pages.push_back({k_paper_width, k_paper_height, {255, 255, 255}, std::move(sheets_[i].items)});
    }
    return pages;
  }

 private:
  Sheet& sheet() { return sheets_.back(); }

  /// Goes on to the next sheet where so much does not fit; whether it did.
  bool need(double height) {
    if (y_ + height <= k_bottom) return false;
    sheets_.emplace_back();
    y_ = 0;
    return true;
  }

  /// Lines from `y_` down.
  void write_lines(const Lines& lines, double left, double size, Weight weight) {
    for (const std::string& line : lines) {
      sheet().write(line, left, y_ + size, size, weight, k_dark);
      y_ += size * k_leading;
    }
  }

  void add_paragraph(const std::string& text) {
    const Lines lines = lines_of(text, k_body_text, Weight::regular, k_paper_width);
    need(static_cast<double>(lines.size()) * k_body_text * k_leading);
    write_lines(lines, 0, k_body_text, Weight::regular);
    y_ += 10;
  }

  void add_warning(const std::string& text) {
    constexpr double k_inset = 16;
    const Lines lines = lines_of(text, k_body_text, Weight::bold, k_paper_width - 2 * k_inset);
    const double height = static_cast<double>(lines.size()) * k_body_text * k_leading + 2 * k_inset - 6;
    need(height + 12);
    y_ += 4;
    sheet().items.emplace_back(Stroke{
        {{2, y_}, {k_paper_width - 2, y_}, {k_paper_width - 2, y_ + height}, {2, y_ + height}}, true, 4, k_dark, {}});
    y_ += k_inset - 4;
    write_lines(lines, k_inset, k_body_text, Weight::bold);
    y_ += k_inset + 6;
  }

  void add_table(const Table& table) {
    const TableSetting setting = setting_of(table);
    const std::vector<Lines> head = head_of(table, setting);
    const double head_height = height_of(head, setting.head_size());
    y_ += 8;
    std::vector<std::vector<Lines>> rows;
    for (const auto& cells : table.rows) rows.push_back(cells_of(cells, setting));
    const double first = rows.empty() ? 0 : row_height(rows.front(), setting);
    need(k_body_text * k_leading + head_height + first);
    write_lines({elided(table.caption, k_body_text, Weight::bold, k_paper_width)}, 0, k_body_text, Weight::bold);
    y_ += 4;
    add_head(table, head, setting, head_height);
    for (const std::vector<Lines>& row : rows) {
      const double height = row_height(row, setting);
      if (need(height)) add_head(table, head, setting, head_height);
      add_row(table, row, setting, height);
    }
    y_ += 12;
  }

  static std::vector<Lines> head_of(const Table& table, const TableSetting& setting) {
    std::vector<Lines> head;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      head.push_back(
          lines_of(table.columns[i].title, setting.head_size(), Weight::bold, setting.widths[i] - 2 * k_pad));
    }
    return head;
  }

  static std::vector<Lines> cells_of(const std::vector<std::string>& cells, const TableSetting& setting) {
    std::vector<Lines> row;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      row.push_back(lines_of(cells[i], setting.size, weight_of(i), setting.widths[i] - 2 * k_pad));
    }
    return row;
  }

  static double height_of(const std::vector<Lines>& cells, double size) {
    const std::size_t most = std::ranges::max(cells, {}, &Lines::size).size();
    return static_cast<double>(most) * size * k_leading + 2 * k_row_pad;
  }

  static double row_height(const std::vector<Lines>& cells, const TableSetting& setting) {
    return std::max(height_of(cells, setting.size), k_box + 2 * k_row_pad);
  }

  void add_head(const Table& table, const std::vector<Lines>& head, const TableSetting& setting, double height) {
    sheet().line(0, y_, sum(setting.widths), y_, 2.4, k_dark);
    add_cells(table, head, setting, setting.head_size(), true);
    y_ += height;
    sheet().line(0, y_, sum(setting.widths), y_, 2.4, k_dark);
  }

  void add_row(const Table& table, const std::vector<Lines>& row, const TableSetting& setting, double height) {
    add_cells(table, row, setting, setting.size, false);
    double left = 0;
    for (std::size_t i = 0; i < row.size(); ++i) {
      const bool is_word = std::ranges::any_of(row[i], [](const std::string& line) { return !line.empty(); });
      if (table.columns[i].kind == Column::Kind::tick && !is_word)
        add_box(left + setting.widths[i] / 2, y_ + height / 2);
      left += setting.widths[i];
    }
    y_ += height;
    sheet().line(0, y_, sum(setting.widths), y_, 1, k_grey);
  }

  void add_box(double x, double y) {
    const double half = k_box / 2;
    sheet().items.emplace_back(Stroke{
        {{x - half, y - half}, {x + half, y - half}, {x + half, y + half}, {x - half, y + half}}, true, 2, k_dark, {}});
  }

  void add_cells(const Table& table, const std::vector<Lines>& cells, const TableSetting& setting, double size,
                 bool is_head) {
    double left = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const Column::Kind kind = table.columns[i].kind;
      const Anchor anchor = kind == Column::Kind::number ? Anchor::right
                            : kind == Column::Kind::tick ? Anchor::middle
                                                         : Anchor::left;
      const double x = anchor == Anchor::right    ? left + setting.widths[i] - k_pad
                       : anchor == Anchor::middle ? left + setting.widths[i] / 2
                                                  : left + k_pad;
      double baseline = y_ + k_row_pad + size;
      for (const std::string& line : cells[i]) {
        sheet().write(line, x, baseline, size, is_head ? Weight::bold : weight_of(i), k_dark, anchor);
        baseline += size * k_leading;
      }
      left += setting.widths[i];
    }
  }

  std::string title_;
  std::vector<Sheet> sheets_;
  double y_ = 0;  ///< where what comes next begins
};

}  // namespace

std::vector<Drawing> document_pages(const Document& document, const Drawing& picture) {
  Pages pages(document.title, picture);
  for (const Section& section : document.sections) pages.add(section);
  return std::move(pages).finished();
}

}  // namespace evenlit
