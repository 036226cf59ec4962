#include <fmt/format.h>

#include "csv_name.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/take_off_report.hpp"
#include "evenlit/wiring/cable_words.hpp"

namespace evenlit {

std::string take_offs_csv(const std::vector<WiredJob>& jobs) {
  const auto money = [](const std::optional<double>& amount) {
    return amount ? fixed_text(*amount, 2) : std::string();
  };
  std::string csv = "job,item,quantity,unit,price,cost\n";
  for (const WiredJob& wired : jobs) {
    const std::string job = csv_name(wired.name);
    for (const ShoppingItem& item : wired.list.items) {
      csv += fmt::format("{},{},{},each,{},{}\n", job, csv_name(item.what), item.count, money(item.price),
                         money(item.cost()));
    }
    for (const CableLength& cable : wired.list.loose) {
      csv += fmt::format("{},{},{},m,,\n", job, csv_name(cable_name(cable.cable)), fixed_text(cable.length_m, 2));
    }
    if (wired.list.hours) {
      csv += fmt::format("{},{},{},h,{},{}\n", job, csv_name("work"), fixed_text(*wired.list.hours, 2),
                         money(wired.job.wiring->labour.rate), money(wired.list.labour_cost));
    }
  }
  return csv;
}

}  // namespace evenlit
