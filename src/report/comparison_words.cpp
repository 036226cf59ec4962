#include "comparison_words.hpp"

#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/report/plain_text.hpp"

namespace evenlit {

const char* part_word(PartMove::Part part) {
  switch (part) {
    case PartMove::Part::row:
      return "row";
    case PartMove::Part::column:
      return "column";
    case PartMove::Part::can:
      return "can";
    case PartMove::Part::all:
      break;
  }
  return "all";
}

std::string name_cell(const ComparedLayout& row) {
  return row.moves.empty() ? shortened(printable(row.layout.name), 24) : "  moved";
}

std::string light_cell(double lx, double error_lx, Units units) {
  const double unit_lx = units == Units::imperial ? k_lux_per_footcandle : 1;
  return rounded_text(lx / unit_lx, error_lx / unit_lx);
}

}  // namespace evenlit
