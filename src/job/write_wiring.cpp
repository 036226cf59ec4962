#include "write_wiring.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "can_words.hpp"
#include "evenlit/base/number.hpp"
#include "toml_text.hpp"

namespace evenlit {
namespace {

template <class Words, class Meaning>
std::string word(const Words& words, const Meaning& meaning) {
  return string_text(std::ranges::find(words, meaning, &Words::value_type::second)->first);
}

/// Writes the parts of [wiring]; lengths in the form that the job's trade would use.
class WiringWriter {
 public:
  explicit WiringWriter(Units units) : units_(units) {}

  [[nodiscard]] std::string text(const Wiring& wiring) const {
    std::string text =
        "\n[wiring]\n" + line("cable", word(k_cables, wiring.cable)) + line("path", word(k_cable_paths, wiring.path));
    if (wiring.framing != Wiring::Framing::lumber) text += line("framing", word(k_framing_kinds, wiring.framing));
    if (wiring.joist_depth_m) text += line("joist_depth", length(*wiring.joist_depth_m));
    text += line("slack", length(wiring.slack_m)) + line("waste", shortest_text(wiring.waste)) + feed(wiring.feed);
    if (!wiring.prices.empty()) text += line("prices", prices(wiring.prices));
    if (wiring.labour != Labour{}) text += line("labour", labour(wiring.labour));
    for (const Coil& coil : wiring.coils) text += this->coil(coil);
    for (const SwitchBox& box : wiring.switches) text += switch_box(box);
    return text;
  }

 private:
  [[nodiscard]] std::string length(double metres) const { return string_text(exact_length_text(metres, units_)); }

  [[nodiscard]] std::string taped(const Taped& taped) const {
    return key_text(taped.wall) + " = " + length(taped.distance_m);
  }

  [[nodiscard]] std::string feed(const Feed& feed) const {
    const auto* box = std::get_if<std::string>(&feed.at);
    std::string text;
    if (box != nullptr) {
      text = "switch = " + string_text(*box);
    } else {
      const auto& from = std::get<CeilingPoint>(feed.at).from;
      text = fmt::format("from = {{ {}, {} }}", taped(from[0]), taped(from[1]));
    }
    if (feed.run_m) text += ", run = " + length(*feed.run_m);
    return line("feed", "{ " + text + " }");
  }

  [[nodiscard]] static std::string prices(const std::map<Piece, double>& prices) {
    std::string text;
    for (const auto& [name, piece] : k_pieces) {
      const auto price = prices.find(piece);
      if (price == prices.end()) continue;
      text += fmt::format("{}{} = {}", text.empty() ? "" : ", ", name, shortest_text(price->second));
    }
    return "{ " + text + " }";
  }

  [[nodiscard]] static std::string labour(const Labour& labour) {
    std::string text;
    for (const auto& [key, number] :
         {std::pair{"per_can", labour.hours_per_can}, {"per_switch", labour.hours_per_switch}, {"rate", labour.rate}}) {
      if (number) text += fmt::format("{}{} = {}", text.empty() ? "" : ", ", key, shortest_text(*number));
    }
    return "{ " + text + " }";
  }

  [[nodiscard]] std::string coil(const Coil& coil) const {
    return "\n[[wiring.coils]]\n" + line("cable", word(k_cables, coil.cable)) + line("length", length(coil.length_m)) +
           (coil.price ? line("price", shortest_text(*coil.price)) : std::string());
  }

  [[nodiscard]] std::string wall_place(const WallPlace& place) const {
    return line("wall", string_text(place.wall)) + line("from", "{ " + taped(place.from) + " }") +
           line("height", length(place.height_m));
  }

  [[nodiscard]] std::string switch_box(const SwitchBox& box) const {
    std::string text = "\n[[wiring.switches]]\n" + line("name", string_text(box.name)) + wall_place(box.at);
    if (box.also) {
      text += line("also", fmt::format("{{ wall = {}, from = {{ {} }}, height = {} }}", string_text(box.also->wall),
                                       taped(box.also->from), length(box.also->height_m)));
    }
    text += line("circuits", list_text(box.circuits, [](const std::string& name) { return string_text(name); }));
    if (box.box_in3) text += line("box", shortest_text(*box.box_in3));
    return text;
  }

  Units units_;
};

}  // namespace

std::string wiring_text(const Job& job) {
  return job.wiring ? WiringWriter(job.units).text(*job.wiring) : std::string();
}

}  // namespace evenlit
