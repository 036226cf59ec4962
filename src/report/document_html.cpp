#include <fmt/format.h>

#include "evenlit/base/markup.hpp"
#include "evenlit/report/set_out_report.hpp"

namespace evenlit {
namespace {

constexpr std::string_view k_style = R"(
@page { margin: 12mm; }
body { font: 13pt/1.35 "B612", Verdana, "DejaVu Sans", sans-serif; color: #000; background: #fff; max-width: 7.25in;
  margin: 1em auto; }
h1 { font-size: 20pt; margin: 0 0 .3em; }
h2 { font-size: 16pt; margin: 1.2em 0 .4em; break-after: avoid; }
p { margin: .4em 0; }
figure { margin: 0; break-inside: avoid; }
.warning { border: 3pt solid #000; padding: .4em .6em; font-weight: bold; break-inside: avoid; }
table { border-collapse: collapse; margin: .8em 0; }
caption { text-align: left; font-weight: bold; break-after: avoid; padding-bottom: .2em; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
td, th { white-space: nowrap; }
th, td { border: 1pt solid #000; padding: .15em .45em; text-align: left; vertical-align: top; }
thead th { white-space: normal; font-size: 10.5pt; vertical-align: bottom; }
.number { text-align: right; white-space: nowrap; }
.tick { text-align: center; font-size: 16pt; line-height: 1; }
@media print { body { margin: 0; max-width: none; } }
)";

std::string_view class_of(Column::Kind kind) {
  switch (kind) {
    case Column::Kind::number:
      return " class=\"number\"";
    case Column::Kind::tick:
      return " class=\"tick\"";
    case Column::Kind::text:
      break;
  }
  return "";
}

/// A cell's text, its line feeds as breaks.
std::string cell_text(std::string_view cell) {
  std::string html;
  for (std::size_t end = cell.find('\n'); end != std::string_view::npos; end = cell.find('\n')) {
    html += markup_text(cell.substr(0, end)) + "<br>";
    cell.remove_prefix(end + 1);
  }
  return html + markup_text(cell);
}

std::string table_row(const Table& table, const std::vector<std::string>& cells) {
  std::string html = "<tr>";
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Column::Kind kind = table.columns[i].kind;
    const std::string content = kind == Column::Kind::tick && cells[i].empty() ? "&#9744;" : cell_text(cells[i]);
    html += i == 0 ? fmt::format("<th scope=\"row\"{}>{}</th>", class_of(kind), content)
                   : fmt::format("<td{}>{}</td>", class_of(kind), content);
  }
  return html + "</tr>\n";
}

std::string table_html(const Table& table) {
  std::string html = fmt::format("<table>\n<caption>{}</caption>\n<thead><tr>", markup_text(table.caption));
  for (const Column& column : table.columns)
    html += fmt::format("<th scope=\"col\">{}</th>", markup_text(column.title));
  html += "</tr></thead>\n<tbody>\n";
  for (const auto& cells : table.rows) html += table_row(table, cells);
  return html + "</tbody>\n</table>\n";
}

std::string section_html(const Section& section) {
  std::string html = fmt::format("<section>\n<h2>{}</h2>\n", markup_text(section.title));
  for (const std::string& warning : section.warnings)
    html += fmt::format("<p class=\"warning\">STOP: {}</p>\n", markup_text(warning));
  for (const std::string& paragraph : section.paragraphs) html += fmt::format("<p>{}</p>\n", markup_text(paragraph));
  for (const Table& table : section.tables) html += table_html(table);
  return html + "</section>\n";
}

}  // namespace

std::string document_html(const Document& document, std::string_view picture_svg, std::string_view picture_width) {
  const std::string title = markup_text(document.title);
  std::string html = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width\">\n<title>{}</title>\n<style>{}</style>\n</head>\n<body>\n"
      "<h1>{}</h1>\n<figure style=\"width: {}\">\n{}</figure>\n",
      title, k_style, title, markup_text(picture_width), picture_svg);
  for (const Section& section : document.sections) html += section_html(section);
  return html + "</body>\n</html>\n";
}

}  // namespace evenlit
