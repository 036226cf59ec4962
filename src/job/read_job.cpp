#include "evenlit/job/read_job.hpp"

#include <fmt/format.h>

#include "evenlit/base/names.hpp"
#include "tables.hpp"
#include "toml_document.hpp"
#include "value_reader.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_problems = 100;

Units read_units(const TomlValue* value, ValueReader& reader) {
  const auto name = reader.text(value, "units");
  if (name == "metric") return Units::metric;
  if (name && name != "imperial") {
    reader.problem(value->place, fmt::format("units {} is unknown", quoted(*name)), "write \"imperial\" or \"metric\"");
  }
  return Units::imperial;
}

Job read_tables(const TomlValue& document, ValueReader& reader) {
  Fields fields(document, "the job", reader);
  Job job;
  job.units = read_units(fields.find("units"), reader);
  if (const auto currency = reader.text(fields.find("currency"), "currency")) job.currency = *currency;
  job.target_lx = reader.illuminance_lx(fields.find("target"), "target", k_target);

  const auto* room_value = fields.require("room", "add a table [room] with name, width, depth and ceiling");
  const auto room = room_value != nullptr ? read_shape(*room_value, job.units, reader) : std::nullopt;
  job.room = room.value_or(Shape{});
  const Shape* checked_room = room ? &job.room : nullptr;

  if (const auto* value = fields.find("finishes")) job.finishes = read_finishes(*value, checked_room, reader);
  if (const auto* value = fields.find("colours")) job.colours = read_colours(*value, checked_room, reader);
  const auto* work_plane = fields.find("work_plane");
  const TomlValue by_default{.place = room_value != nullptr ? room_value->place : Place{}, .content = TomlTable{}};
  job.work_plane = read_work_plane(work_plane != nullptr ? *work_plane : by_default, checked_room, job.units, reader);
  if (const auto* value = fields.find("wanted")) job.wanted = read_wanted(*value, reader);
  if (const auto* value = fields.find("joists")) job.joists = read_joists(*value, checked_room, job.units, reader);
  if (const auto* value = fields.find("members")) job.members = read_members(*value, checked_room, reader);
  if (const auto* value = fields.find("keep_outs")) {
    job.keep_outs = read_keep_outs(*value, checked_room, job.units, reader);
  }
  if (const auto* value = fields.find("fans")) job.fans = read_fans(*value, checked_room, job.units, reader);
  if (const auto* value = fields.find("obstructions")) {
    job.obstructions = read_obstructions(*value, checked_room, job.units, reader);
  }
  if (const auto* value = fields.find("task_areas")) {
    job.task_areas = read_task_areas(*value, checked_room, job.work_plane.height_m, job.units, reader);
  }
  if (const auto* value = fields.find("points")) job.points = read_points(*value, checked_room, job.units, reader);
  if (const auto* value = fields.find("wall_areas")) job.wall_areas = read_wall_areas(*value, checked_room, reader);
  if (const auto* value = fields.find("seats")) job.seats = read_seats(*value, checked_room, job.units, reader);
  if (const auto* value = fields.find("screens")) job.screens = read_screens(*value, checked_room, job.units, reader);
  if (const auto* value = fields.find("views")) job.views = read_views(*value, checked_room, job.units, reader);
  if (const auto* value = fields.find("dimmers")) job.dimmers = read_dimmers(*value, reader);
  if (const auto* value = fields.find("circuits")) job.circuits = read_circuits(*value, job.dimmers, reader);
  if (const auto* value = fields.find("moods")) job.moods = read_moods(*value, job, reader);
  if (const auto* value = fields.find("energy")) job.energy = read_energy(*value, reader);
  if (const auto* value = fields.find("supply")) job.supply = read_supply(*value, reader);
  if (const auto* value = fields.find("wiring")) job.wiring = read_wiring(*value, checked_room, job, reader);
  if (const auto* value = fields.require(
          "can_types", R"(add a table [can_types.six_inch] with file = "../photometry/six-inch-medium.ies")")) {
    job.can_types = read_can_types(*value, reader);
  }
  if (const auto* value = fields.require(
          "cans",
          R"(add a table [[cans]] with type = "six_inch" and from = { west = "3ft 3in", south = "3ft 3in" })")) {
    job.cans = read_cans(*value, checked_room, job, reader);
  }
  fields.refuse_other_keys();
  return job;
}

/// The first of very many problems, and how many are not shown.
Problems at_most(std::size_t count, Problems problems) {
  if (problems.size() <= count) return problems;
  const auto more = problems.size() - count;
  problems.resize(count);
  problems.push_back({whole_file(problems.front().place.file), fmt::format("{} more problems", more), {}});
  return problems;
}

}  // namespace

Result<Job> read_job(std::string_view bytes, std::string_view name) {
  auto document = toml_document(bytes, name);
  if (!document) return tl::unexpected(std::move(document.error()));
  document->place = whole_file(name);

  ValueReader reader;
  auto job = read_tables(*document, reader);
  if (auto problems = reader.problems(); !problems.empty()) {
    return tl::unexpected(at_most(k_most_problems, std::move(problems)));
  }
  return job;
}

}  // namespace evenlit
