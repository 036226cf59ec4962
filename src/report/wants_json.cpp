#include "wants_json.hpp"

namespace evenlit {
namespace {

Json want_json(const Want& want) {
  const auto kind = [&] {
    switch (want.kind) {
      case Want::Kind::average:
        return "average_lx";
      case Want::Kind::minimum:
        return "minimum_lx";
      case Want::Kind::uniformity:
        return "uniformity_minimum_over_average";
      case Want::Kind::watts:
        return "power_w";
      case Want::Kind::cost:
        return "cost";
      case Want::Kind::task_area:
        break;
    }
    return "task_area_average_lx";
  }();
  return {{"of", kind},
          {"task_area", want.task_area.empty() ? Json(nullptr) : Json(want.task_area)},
          {"wanted", number(want.wanted)},
          {"has", number(want.has.value)},
          {"has_error", number(want.has.error)},
          {"is_met", want.is_met()}};
}

}  // namespace

Json wants_json(const std::vector<Want>& wants) {
  Json all = Json::array();
  for (const Want& want : wants) all.push_back(want_json(want));
  return all;
}

}  // namespace evenlit
