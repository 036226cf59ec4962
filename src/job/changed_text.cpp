#include "evenlit/job/changed_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "evenlit/base/names.hpp"
#include "evenlit/base/utf8.hpp"
#include "evenlit/job/read_job.hpp"
#include "taping.hpp"
#include "toml_editor.hpp"

namespace evenlit {
namespace {

/// What was done, or what is wrong with a change.
using Done = Result<std::string>;

constexpr std::string_view k_forms = R"(write {"set": PATH, "value": V}, {"remove": PATH}, {"add": PATH, "value": V}, )"
                                     R"({"move": PATH, "to_m": [X, Y]} or {"cans": [...]})";
constexpr std::string_view k_path_form = R"(write an array of keys and numbers from 0 on, like ["cans", 2, "type"])";
constexpr std::string_view k_point_form = R"(write the place in metres: "to_m": [1.5, 2.25])";
constexpr std::string_view k_can_form = R"(write {"type": "six_inch", "x_m": 1.5, "y_m": 2.25})";

/// Where a byte of a text is.
Place place_of_byte(const NamedText& text, std::size_t byte) {
  const std::string_view before = text.bytes.substr(0, byte > 0 ? byte - 1 : 0);
  Place place = whole_file(text.name);
  place.line = static_cast<int>(1 + std::ranges::count(before, '\n'));
  place.column = 1 + code_points(before.substr(before.rfind('\n') + 1));
  return place;
}

/// Reads JSON for its mistakes alone: the byte, counted from 1, at which the first one is found.
struct JsonMistakes : nlohmann::json_sax<Json> {
  std::size_t byte = 0;
  bool is_number = false;  ///< one that is too large

  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t&) override { return true; }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override { return true; }
  bool key(string_t&) override { return true; }
  bool end_object() override { return true; }
  bool start_array(std::size_t) override { return true; }
  bool end_array() override { return true; }
  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception& error) override {
    constexpr int k_out_of_range = 406;
    byte = position;
    is_number = error.id == k_out_of_range;
    return false;
  }
};

Result<Json> read_changes(const NamedText& changes) {
  JsonMistakes mistakes;
  if (!Json::sax_parse(changes.bytes, &mistakes)) {
    const Place place = place_of_byte(changes, mistakes.byte);
    if (mistakes.is_number) return failure(place, "this number is too large", "write numbers that a job can have");
    return failure(place, "this is not JSON", "write an array of changes");
  }
  Json list = Json::parse(changes.bytes, nullptr, false);
  if (!list.is_array()) {
    return failure(whole_file(changes.name), "this is no array of changes", "write the changes in brackets: [{...}]");
  }
  if (list.size() <= k_most_changes) return list;
  return failure(whole_file(changes.name), fmt::format("there are {} changes", list.size()),
                 fmt::format("write at most {}", k_most_changes));
}

std::optional<double> coordinate_m(const Json& value) {
  constexpr double k_most_m = 1e4;
  if (!value.is_number() || !(std::abs(value.get<double>()) <= k_most_m)) return std::nullopt;
  return value.get<double>();
}

/// Makes changes to a job's text.
class Changer {
 public:
  Changer(TomlEditor editor, std::string name, std::string_view changes_name)
      : editor_(std::move(editor)), name_(std::move(name)), changes_name_(changes_name) {}

  [[nodiscard]] const std::string& text() const { return editor_.text(); }

  Done make(const Json& change) {
    constexpr std::array<std::string_view, 5> k_kinds{"set", "remove", "add", "move", "cans"};
    const auto kind = std::ranges::find_if(k_kinds, [&](std::string_view key) { return change.contains(key); });
    if (!change.is_object() || kind == k_kinds.end()) return refused("this is no change", k_forms);
    const std::string_view beside = *kind == "set" || *kind == "add" ? "value" : *kind == "move" ? "to_m" : "";
    for (const auto& [key, value] : change.items()) {
      if (key != *kind && key != beside) {
        return refused(fmt::format("{} stands beside {}", evenlit::quoted(key), evenlit::quoted(*kind)), k_forms);
      }
    }
    if (!beside.empty() && !change.contains(beside)) {
      return refused(fmt::format("{} has no {}", evenlit::quoted(*kind), evenlit::quoted(beside)), k_forms);
    }
    for (const auto& [key, value] : change.items()) {
      if (const auto problem = unwritable(value)) return refused(problem->what, problem->hint);
    }
    if (*kind == "cans") return replace_cans(change["cans"]);
    const auto path = path_in(change[std::string(*kind)]);
    if (!path) return refused(fmt::format("{} names no path", evenlit::quoted(*kind)), k_path_form);
    if (*kind == "move") return move(*path, change["to_m"]);
    if (*kind == "remove") {
      return done(editor_.remove(*path), [&] { return "removed " + text_of(*path); });
    }
    const Json& value = change["value"];
    if (*kind == "set") {
      return done(editor_.set(*path, value), [&] { return text_of(*path) + " = " + toml_value_text(value); });
    }
    return done(editor_.add(*path, {value}), [&] { return "added " + text_of(last_of(*path)); });
  }

 private:
  [[nodiscard]] tl::unexpected<Problems> refused(std::string what, std::string_view hint) const {
    return failure(whole_file(changes_name_), std::move(what), std::string(hint));
  }

  template <class Words>
  Done done(const Edit& edit, const Words& words) const {
    if (!edit) return refused(edit.error().what, edit.error().hint);
    return words();
  }

  static std::optional<TomlPath> path_in(const Json& steps) {
    if (!steps.is_array() || steps.empty()) return std::nullopt;
    TomlPath path;
    for (const Json& step : steps) {
      if (step.is_string()) {
        path.emplace_back(step.get<std::string>());
      } else if (step.is_number_unsigned()) {
        path.emplace_back(step.get<std::size_t>());
      } else {
        return std::nullopt;
      }
    }
    return path;
  }

  [[nodiscard]] TomlPath last_of(const TomlPath& list) const {
    return extended(list, std::get<TomlArray>(value_at(editor_.document(), list)->content).size() - 1);
  }

  Done move(const TomlPath& path, const Json& to) {
    const bool is_pair = to.is_array() && to.size() == 2;
    const auto x_m = is_pair ? coordinate_m(to[0]) : std::nullopt;
    const auto y_m = is_pair ? coordinate_m(to[1]) : std::nullopt;
    if (!x_m || !y_m) return refused(R"("to_m" is no place of the plan)", k_point_form);
    const TomlValue* thing = value_at(editor_.document(), path);
    if (thing == nullptr) {
      const TextProblem problem = unknown_path(editor_.document(), path);
      return refused(problem.what, problem.hint);
    }
    const auto room = taped_room(editor_.document(), name_);
    if (!room) return tl::unexpected(room.error());
    const auto lengths = lengths_to_move(*thing, path, *room, {*x_m, *y_m});
    if (!lengths) return tl::unexpected(lengths.error());
    return done(editor_.rewrite(*lengths), [&] {
      std::string words = "moved " + text_of(path);
      if (lengths->empty()) return words + ": it is there already";
      if (value_at(editor_.document(), extended(path, "corners")) != nullptr) return words;
      for (std::size_t i = 0; i < lengths->size(); ++i) {
        const auto& [where, length] = (*lengths)[i];
        words += fmt::format("{} {} {}", i == 0 ? ":" : ",", text_of({where.back()}), length.get<std::string>());
      }
      return words;
    });
  }

  Done replace_cans(const Json& cans) {
    if (!cans.is_array() || cans.empty()) return refused(R"("cans" is no list of cans)", k_can_form);
    const auto room = taped_room(editor_.document(), name_);
    if (!room) return tl::unexpected(room.error());
    std::vector<Json> tables;
    for (std::size_t i = 0; i < cans.size(); ++i) {
      const Json& can = cans[i];
      const auto x_m = can.contains("x_m") ? coordinate_m(can["x_m"]) : std::nullopt;
      const auto y_m = can.contains("y_m") ? coordinate_m(can["y_m"]) : std::nullopt;
      if (!x_m || !y_m || !can.contains("type")) {
        return refused(fmt::format("element {} of \"cans\" is no can", i), k_can_form);
      }
      const Eigen::Vector2d place_m(*x_m, *y_m);
      const auto from = taped_from(*room, place_m);
      if (!from || !is_inside(room->shape.corners_m, place_m)) {
        return refused(fmt::format("element {} of \"cans\" is outside the room", i),
                       "x_m and y_m are east and north of the plan's origin");
      }
      Json table{{"type", can["type"]}, {"from", *from}};
      for (const auto& [key, value] : can.items()) {
        if (key != "x_m" && key != "y_m") table[key] = value;
      }
      tables.push_back(std::move(table));
    }
    return done(editor_.replace_elements({"cans"}, tables), [&] { return fmt::format("cans: {} now", tables.size()); });
  }

  TomlEditor editor_;
  std::string name_;
  std::string_view changes_name_;
};

}  // namespace

std::string name_of_changed(std::string_view job_name) { return std::string(job_name) + ", changed"; }

tl::expected<ChangedText, RefusedChanges> changed_text(const NamedText& job, const NamedText& changes) {
  const std::string name = name_of_changed(job.name);
  const auto list = read_changes(changes);
  if (!list) return tl::unexpected(RefusedChanges{list.error(), {}});
  auto editor = TomlEditor::of(std::string(job.bytes), name);
  if (!editor) {
    for (Problem& problem : editor.error()) problem.place.file = job.name;  // nothing is changed yet
    return tl::unexpected(RefusedChanges{std::move(editor.error()), {}});
  }
  Changer changer(std::move(*editor), name, changes.name);
  ChangedText changed;
  for (std::size_t i = 0; i < list->size(); ++i) {
    auto done = changer.make((*list)[i]);
    const std::string number = fmt::format("change {}: ", i + 1);
    if (!done) {
      for (Problem& problem : done.error()) problem.what = number + problem.what;
      return tl::unexpected(RefusedChanges{std::move(done.error()), changer.text()});
    }
    changed.done.push_back(number + *done);
  }
  changed.bytes = changer.text();
  if (auto read = read_job(changed.bytes, name); !read) {
    return tl::unexpected(RefusedChanges{std::move(read.error()), std::move(changed.bytes)});
  }
  return changed;
}

}  // namespace evenlit
