#include "doubts_json.hpp"

namespace evenlit {
namespace {

const char* case_name(Doubt doubt) {
  switch (doubt) {
    case Doubt::dark_finishes:
      return "dark_finishes";
    case Doubt::aged_lamps:
      return "aged_lamps";
    case Doubt::cans_off_place:
      return "cans_off_place";
    case Doubt::dead_can:
      return "dead_can";
    case Doubt::dark_and_aged:
      break;
  }
  return "dark_and_aged";
}

}  // namespace

Json doubts_json(const std::optional<LayoutDoubts>& doubts) {
  if (!doubts) return nullptr;
  Json cases = Json::array();
  for (const DoubtedLight& light : *doubts) {
    cases.push_back({{"case", case_name(light.doubt)},
                     {"average_lx", number(light.average_lx.value)},
                     {"average_error_lx", number(light.average_lx.error)},
                     {"minimum_lx", number(light.minimum_lx.value)},
                     {"minimum_error_lx", number(light.minimum_lx.error)},
                     {"gives_all_wanted", light.gives_all()}});
  }
  return cases;
}

}  // namespace evenlit
