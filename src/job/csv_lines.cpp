#include "csv_lines.hpp"

#include <algorithm>
#include <array>

#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

constexpr std::string_view k_spaces = " \t";

std::string_view trimmed(std::string_view text) {
  const auto start = text.find_first_not_of(k_spaces);
  if (start == std::string_view::npos) return {};
  return text.substr(start, text.find_last_not_of(k_spaces) - start + 1);
}

/// Steps over a line and its end: line feed, carriage return, or both.
std::string_view take_line(std::string_view& rest) {
  const auto end = std::min(rest.find_first_of("\r\n"), rest.size());
  const auto line = rest.substr(0, end);
  rest.remove_prefix(end);
  if (rest.starts_with("\r\n")) {
    rest.remove_prefix(2);
  } else if (!rest.empty()) {
    rest.remove_prefix(1);
  }
  return line;
}

bool is_remark(std::string_view line) {
  const auto text = trimmed(line);
  return text.starts_with('#') || text.starts_with("\"#");
}

char separator_of(std::string_view line) {
  std::array<std::pair<char, int>, 3> counts{{{';', 0}, {'\t', 0}, {',', 0}}};
  bool is_quoted = false;
  for (const char c : line) {
    if (c == '"') is_quoted = !is_quoted;
    for (auto& [separator, count] : counts) count += !is_quoted && c == separator ? 1 : 0;
  }
  return std::ranges::max_element(counts, {}, &std::pair<char, int>::second)->first;
}

/// Takes a line apart.
class CellScanner {
 public:
  CellScanner(std::string_view line, char separator, Place line_place, Problems& problems)
      : line_(line), separator_(separator), line_place_(std::move(line_place)), problems_(problems) {}

  CsvLine cells() {
    CsvLine cells;
    do {
      cells.push_back(next());
    } while (take_separator());
    return cells;
  }

 private:
  CsvCell next() {
    while (at_ < line_.size() && line_[at_] != separator_ && k_spaces.find(line_[at_]) != std::string_view::npos) ++at_;
    return at_ < line_.size() && line_[at_] == '"' ? csv_name() : plain_cell();
  }

  CsvCell plain_cell() {
    const auto end = std::min(line_.find(separator_, at_), line_.size());
    const std::string_view text = trimmed(line_.substr(at_, end - at_));
    CsvCell cell{std::string(text), place(at_, at_ + text.size())};
    at_ = end;
    return cell;
  }

  CsvCell csv_name() {
    const std::size_t begin = at_++;
    std::string text;
    while (true) {
      const auto quote = line_.find('"', at_);
      if (quote == std::string_view::npos) {
        problem(begin, line_.size(), "this quote is not closed on its line",
                "close it, or write the cell without quotes");
        at_ = line_.size();
        return {{}, place(begin, begin + 1)};
      }
      text += line_.substr(at_, quote - at_);
      at_ = quote + 1;
      if (at_ >= line_.size() || line_[at_] != '"') break;
      text += '"';
      ++at_;
    }
    const std::size_t behind = at_;
    at_ = std::min(line_.find(separator_, at_), line_.size());
    if (!trimmed(line_.substr(behind, at_ - behind)).empty()) {
      problem(begin, at_, "text follows the closing quote", "write the cell without quotes, or each quote in it twice");
    }
    return {std::string(trimmed(text)), place(begin, behind)};
  }

  bool take_separator() {
    if (at_ >= line_.size()) return false;
    ++at_;
    return true;
  }

  [[nodiscard]] Place place(std::size_t begin, std::size_t end) const {
    Place place = line_place_;
    place.column = code_points(line_.substr(0, begin)) + 1;
    place.width = std::max(1, code_points(line_.substr(begin, end - begin)));
    return place;
  }

  void problem(std::size_t begin, std::size_t end, std::string what, std::string hint) {
    problems_.push_back({place(begin, end), std::move(what), std::move(hint)});
  }

  std::string_view line_;
  char separator_;
  Place line_place_;
  Problems& problems_;
  std::size_t at_ = 0;
};

}  // namespace

Result<std::vector<CsvLine>> csv_lines(std::string_view bytes, std::string_view name) {
  constexpr std::string_view k_byte_order_mark = "\xef\xbb\xbf";
  constexpr std::size_t k_most_problems = 100;
  if (bytes.starts_with(k_byte_order_mark)) bytes.remove_prefix(k_byte_order_mark.size());
  Problems problems;
  std::vector<CsvLine> lines;
  char separator = 0;
  for (int number = 1; !bytes.empty() && problems.size() < k_most_problems; ++number) {
    const auto line = take_line(bytes);
    const Place place{.file = std::string(name), .line = number, .column = 1};
    if (!is_utf8(line) || line.find('\0') != std::string_view::npos) {
      problems.push_back({place, "this line is not text in UTF-8", "save the table as CSV in UTF-8"});
      continue;
    }
    if (is_remark(line)) continue;
    if (separator == 0 && !trimmed(line).empty()) separator = separator_of(line);
    CsvLine cells = CellScanner(line, separator, place, problems).cells();
    if (!std::ranges::all_of(cells, [](const CsvCell& cell) { return cell.is_empty(); }))
      lines.push_back(std::move(cells));
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return lines;
}

}  // namespace evenlit
