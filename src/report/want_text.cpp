#include <fmt/format.h>

#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/search_report.hpp"

namespace evenlit {

std::string money_text(double amount, const std::string& currency) {
  const double cents = std::round(100 * amount);
  return printable(currency) + fixed_text(cents / 100, std::fmod(cents, 100) == 0 ? 0 : 2);
}

std::string want_text(const Want& want, const Job& job) {
  const auto light = [&](const std::string& name) {
    return fmt::format("{} {} of {}", name, illuminance_text(want.has.value, want.has.error, job.units),
                       illuminance_text(want.wanted, 0, job.units));
  };
  switch (want.kind) {
    case Want::Kind::average:
      return light("average");
    case Want::Kind::minimum:
      return light("minimum");
    case Want::Kind::uniformity:
      return fmt::format("minimum / average {} of {}", fixed_text(want.has.value, 2), fixed_text(want.wanted, 2));
    case Want::Kind::watts:
      return fmt::format("{} W, {} W at most", rounded_text(want.has.value), rounded_text(want.wanted));
    case Want::Kind::cost:
      return fmt::format("{}, {} at most", money_text(want.has.value, job.currency),
                         money_text(want.wanted, job.currency));
    case Want::Kind::task_area:
      break;
  }
  return light(printable(want.task_area));
}

}  // namespace evenlit
