#include "text_layout.hpp"

#include <fmt/format.h>

#include "evenlit/base/figures.hpp"
#include "evenlit/report/plain_text.hpp"

namespace evenlit {

std::string heading(std::string_view text) { return fmt::format("\n{}\n", text); }

std::string row(std::string_view name, std::string_view value, std::string_view second) {
  const std::string line = fmt::format("  {:<34}{:>16}", name, value);
  return second.empty() ? line + '\n' : fmt::format("{}{:>16}\n", line, second);
}

std::string paragraph(std::string_view text) { return fmt::format("  {}", filled(text, k_columns - 2, 2)); }

std::string area_text(double area_m2, Units units) {
  return units == Units::imperial ? rounded_text(area_m2 / (k_metres_per_foot * k_metres_per_foot)) + " ft2"
                                  : rounded_text(area_m2) + " m2";
}

std::string listed(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
  }
  return text;
}

std::string warning_section(const Problems& warnings) {
  if (warnings.empty()) return {};
  std::string text = heading("Warnings");
  for (const Problem& warning : warnings) {
    std::string place = printable(warning.place.file);
    if (warning.place.line > 0) place += fmt::format(":{}", warning.place.line);
    std::string line = place.empty() ? place : place + ": ";
    line += printable(warning.what);
    if (!warning.hint.empty()) line += fmt::format(" ({})", printable(warning.hint));
    text += paragraph(line);
  }
  return text;
}

}  // namespace evenlit
