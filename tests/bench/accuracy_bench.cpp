#include <fmt/format.h>

#include <cmath>

#include "accuracy.hpp"
#include "benches.hpp"
#include "one_thread.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::vector<std::string> accuracy_row(const std::string& name, int patches, const Cost& cost, const Difference& d) {
  return {name,
          std::to_string(patches),
          milliseconds(cost.wall_s),
          milliseconds(cost.processor_s),
          percent(d.usual),
          percent(d.largest),
          percent(d.stated),
          fmt::format("{:.0f} %", 100 * d.covered)};
}

const std::vector<std::string> k_head{"",        "patches",     "ms",     "CPU ms", "95 % within",
                                      "largest", "mean stated", "covered"};

template <class Detail>
std::vector<std::string> measured(const std::string& name, const Settled& settled, const Detail& detail) {
  Response light;
  const Cost cost = least_cost([&] { light = response(settled.room.scene, settled.room.receivers, detail); });
  return accuracy_row(name, light.patches, cost, difference(full_field(light), settled.true_lx));
}

/// All rooms one after the other; the accuracy of the receivers of all.
std::vector<std::string> measured_house(const std::string& name, const std::vector<Case>& rooms,
                                        const Eigen::VectorXd& true_lx, const Accuracy& accuracy) {
  std::vector<Response> lights(rooms.size());
  const Cost cost = least_cost([&] {
    for (std::size_t i = 0; i < rooms.size(); ++i) {
      lights[i] = response(rooms[i].scene, rooms[i].receivers, accuracy);
    }
  });
  Field all{Eigen::VectorXd(true_lx.size()), {}, Eigen::VectorXd(true_lx.size())};
  int patches = 0;
  Eigen::Index first = 0;
  for (const Response& light : lights) {
    const Field field = full_field(light);
    all.total_lx.segment(first, field.total_lx.size()) = field.total_lx;
    all.error_lx.segment(first, field.total_lx.size()) = field.error_lx;
    first += field.total_lx.size();
    patches += light.patches;
  }
  return accuracy_row(name, patches, cost, difference(all, true_lx));
}

Eigen::VectorXd true_light_of(const std::vector<Case>& rooms) {
  std::vector<double> lux;
  for (const Case& room : rooms) {
    constexpr MeshDetail k_true{.patch_size_m = 0.25, .unevenness = 0.003};
    const Eigen::VectorXd of_room = true_light(room, k_true);
    lux.insert(lux.end(), of_room.begin(), of_room.end());
  }
  return Eigen::Map<const Eigen::VectorXd>(lux.data(), std::ssize(lux));
}

std::string described(const Case& room) {
  return fmt::format("{}, {} cans, {} receivers", room.name, room.scene.luminaires.size(), room.receivers.size());
}

}  // namespace

std::vector<Settled> settled_rooms() {
  std::vector<Settled> result;
  for (const auto& room : {empty_room(), l_shape(), furnished_l(), narrow_beams(), demo_job()}) {
    result.push_back({room, true_light(room, k_true_mesh)});
  }
  return result;
}

void accuracy_bench(const std::vector<Settled>& rooms) {
  const std::pair<const char*, Accuracy> wishes[] = {{"0.5 %", {}}, {"0.1 %", k_fine}};
  Rows rows{k_head};
  for (const auto& [wish, accuracy] : wishes) {
    const OneThread limit;
    rows.push_back(measured(fmt::format("{}, one thread, {}", described(rooms[0].room), wish), rooms[0], accuracy));
  }
  for (const Settled& settled : rooms) {
    for (const auto& [wish, accuracy] : wishes) {
      rows.push_back(measured(fmt::format("{}, {}", described(settled.room), wish), settled, accuracy));
    }
  }
  const std::vector<Case> all = house(12);
  const Eigen::VectorXd true_lx = true_light_of(all);
  for (const auto& [wish, accuracy] : wishes) {
    rows.push_back(
        measured_house(fmt::format("house, 12 rooms, {} receivers, {}", true_lx.size(), wish), all, true_lx, accuracy));
  }
  print_table(
      "Light of a room, cut as the accuracy asks; least time of up to three runs, all threads but where said.\n"
      "Errors: from the engine cut at 0.2 m (house 0.25 m), openings in four times as many pieces",
      rows);
}

void convergence_bench(const std::vector<Settled>& rooms) {
  Rows rows{k_head};
  for (const Settled& settled : rooms) {
    if (settled.room.name == "L" || settled.room.name == "demo job") continue;
    for (const double size_m : {1.0, 0.7, 0.5, 0.35, 0.25}) {
      const MeshDetail usual;
      const MeshDetail detail{.patch_size_m = size_m,
                              .unevenness = usual.unevenness * std::pow(size_m / usual.patch_size_m, 3)};
      rows.push_back(measured(fmt::format("{}, {:.2f} m", settled.room.name, size_m), settled, detail));
    }
  }
  print_table("Convergence by patch size, unevenness with its cube; least time of up to three runs, all threads", rows);
}

}  // namespace evenlit::bench
