#include "evenlit/report/handout.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/markup.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/placing/wanted.hpp"
#include "evenlit/report/cautions.hpp"
#include "evenlit/report/light_words.hpp"
#include "evenlit/report/location.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/search_report.hpp"
#include "evenlit/report/verdict.hpp"
#include "handout_style.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

// All that is handed on between these functions is markup, but for what is called a name or a text.

/// Text from outside as markup.
std::string shown_text(std::string_view text) { return markup_text(printable(text)); }

/// A key of the job file as words.
std::string shown_key(std::string key) {
  std::ranges::replace(key, '_', ' ');
  return shown_text(key);
}

/// Whole percent that no line break parts.
std::string percent(double fraction) { return fmt::format("{}\xC2\xA0%", fixed_text(100 * fraction, 0)); }

std::string paragraph_of(std::string_view markup) { return fmt::format("<p>{}</p>\n", markup); }

std::string list_of(const std::vector<std::string>& items) {
  if (items.empty()) return {};
  std::string markup = "<ul>\n";
  for (const std::string& item : items) markup += fmt::format("<li>{}</li>\n", item);
  return markup + "</ul>\n";
}

std::string section_of(std::string_view title, std::string_view content) {
  return fmt::format("<section>\n<h2>{}</h2>\n{}</section>\n", title, content);
}

/// @param kind of picture, for the style sheet
std::string figure_of(std::string_view kind, const HandoutPicture& picture) {
  std::string markup = fmt::format("<figure class=\"{}\">\n<img alt=\"{}\" src=\"data:image/png;base64,{}\">\n", kind,
                                   shown_text(picture.alt), base64(picture.png));
  if (!picture.title.empty()) {
    markup += fmt::format("<figcaption><strong>{}.</strong> {}</figcaption>\n", shown_text(picture.title),
                          shown_text(picture.caption));
  }
  return markup + "</figure>\n";
}

/// `a`, `a and b`, `a, b and c`.
std::string enumerated(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) text += i + 1 == items.size() ? " and " : ", ";
    text += items[i];
  }
  return text;
}

std::string counted(std::size_t count, std::string_view one) {
  return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

std::string capitalised(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() -= 'a' - 'A';
  return text;
}

std::string room_name(const Job& job) { return job.room.name.empty() ? "Your room" : job.room.name; }

std::string light_cell(double lx, Units units) {
  std::string text = plain_illuminance(lx, units);
  const std::size_t bracket = text.find(" (");
  return fmt::format("<span class=\"unit\">{}</span> <span class=\"unit\">{}</span>", text.substr(0, bracket),
                     text.substr(bracket + 1));
}

/// The level on which the light of the room is counted.
std::string plane_words(const Job& job) {
  const double height_m = job.work_plane.height_m;
  if (height_m == 0) return "on the floor";
  const std::string height = markup_text(length_text(height_m, job.units));
  constexpr double k_lowest_table_m = 0.65;
  constexpr double k_highest_table_m = 0.95;
  return height_m >= k_lowest_table_m && height_m <= k_highest_table_m
             ? fmt::format("at table height ({} above the floor)", height)
             : fmt::format("at {} above the floor", height);
}

/// At which levels of its cans the job is lit.
std::string switched_words(const Job& job) {
  const bool are_full = std::ranges::all_of(job.cans, [](const Can& can) { return can.level == 1; });
  return are_full ? "with all of these lights full on" : "with these lights dimmed as planned";
}

std::string size_words(const Job& job) {
  const Eigen::Vector2d size_m = bounds_of(job.room.corners_m).sizes();
  constexpr double k_as_good_as_full = 0.999;
  const bool is_rectangle = signed_area(job.room.corners_m) >= k_as_good_as_full * size_m.prod();
  return markup_text(fmt::format("{} by {}{}", length_text(size_m.x(), job.units), length_text(size_m.y(), job.units),
                                 is_rectangle ? "" : " at its widest"));
}

/// Years of all moods together; empty where one is not known.
std::optional<YearlyEnergy> energy_of(const Handout& handout) {
  if (handout.moods == nullptr) return handout.energy;
  YearlyEnergy sum{.kwh = 0, .cost = 0};
  for (const MoodLight& mood : handout.moods->moods) {
    if (!mood.energy) return std::nullopt;
    sum.kwh += mood.energy->kwh;
    if (!mood.energy->cost) {
      sum.cost.reset();
    } else if (sum.cost) {
      *sum.cost += *mood.energy->cost;
    }
  }
  return sum;
}

std::string year_words(const YearlyEnergy& energy, const Job& job) {
  return energy.cost ? shown_text(yearly_cost_words(*energy.cost, job.currency))
                     : fmt::format("about {} kWh a year", rounded_text(energy.kwh));
}

std::string fact(std::string_view title, std::string_view value, std::string_view words) {
  return fmt::format("<li>{} <strong>{}</strong> {}</li>\n", title, value, words);
}

std::string opening(const Handout& handout) {
  const Job& job = handout.job;
  const Statistics& light = handout.light.work_plane.statistics;
  const std::optional<double>& watts = handout.light.work_plane.watts;
  const std::optional<YearlyEnergy> energy = energy_of(handout);
  std::string facts = fact("Light, on average", light_cell(light.average_lx, job.units), good_for(light.average_lx));
  facts += fact("How even it is", evenness_words(light.uniformity_min_avg),
                fmt::format("The darkest spot gets {} the average.", share_words(light.uniformity_min_avg)));
  if (watts) facts += fact("Power", plain_power(*watts), power_words(*watts));
  return fmt::format(
      "<header>\n<p class=\"kind\">Plan of light</p>\n<h1>{}</h1>\n"
      "<p class=\"lead\">{} for a room of {}. Light is counted {}, {}, after dark.{}</p>\n<ul "
      "class=\"facts\">\n{}</ul>\n</header>\n",
      shown_text(room_name(job)), capitalised(counted(job.cans.size(), "light")), size_words(job), plane_words(job),
      switched_words(job),
      energy ? fmt::format(" Used as planned, the electricity comes to {}.", year_words(*energy, job)) : "", facts);
}

/// What the lights are, by type.
std::string lights_words(const Job& job) {
  std::map<std::string, std::size_t> count;
  for (const Can& can : job.cans) ++count[can.type];
  std::vector<std::string> words;
  for (const CanType& type : job.can_types) {
    if (!count.contains(type.name)) continue;
    std::string text =
        fmt::format("{}type \xE2\x80\x9C{}\xE2\x80\x9D",
                    count.size() > 1 ? fmt::format("{} of ", count[type.name]) : "", shown_key(type.name));
    if (type.hole_m) {
      text += markup_text(fmt::format(", {} across the hole", job.units == Units::imperial
                                                                  ? length_text(*type.hole_m, job.units)
                                                                  : metric_length(*type.hole_m)));
    }
    words.push_back(std::move(text));
  }
  return enumerated(words);
}

std::string room_section(const Handout& handout) {
  const Job& job = handout.job;
  std::string shape = fmt::format("The room measures {}", size_words(job));
  if (job.room.ceiling_m)
    shape += markup_text(fmt::format(", the ceiling is {} high", length_text(*job.room.ceiling_m, job.units)));
  if (!job.room.slopes.empty()) {
    shape += job.room.ceiling_m ? " and slopes down at the sides" : ", the ceiling slopes";
  }
  std::string markup = paragraph_of(shape + ".");
  std::set<std::string> seen;
  std::vector<std::string> things;
  const auto add = [&](const std::string& name) {
    if (seen.insert(name).second) things.push_back(shown_text(name));
  };
  for (const Obstruction& each : job.obstructions) add(each.name);
  for (const WallArea& each : job.wall_areas) add(each.name);
  if (!things.empty()) markup += paragraph_of(fmt::format("In it and on its walls: {}.", enumerated(things)));
  if (!job.cans.empty()) {
    markup += paragraph_of(fmt::format(
        "{} planned: {}.", job.cans.size() == 1 ? "One light is" : counted(job.cans.size(), "light") + " are",
        lights_words(job)));
  }
  if (handout.room_picture) markup += figure_of("seen", *handout.room_picture);
  return section_of("The room", markup);
}

LayoutFigures figures_of(const Handout& handout) {
  const WorkPlaneLight& plane = handout.light.work_plane;
  const int darkest = plane.statistics.minimum_at;
  LayoutFigures figures{.average_lx = {plane.statistics.average_lx, plane.average_error_lx},
                        .minimum_lx = {plane.statistics.minimum_lx, plane.field.error_lx[darkest]},
                        .watts = plane.watts};
  if (handout.comparison != nullptr) figures.cost = handout.comparison->rows.front().cost;
  for (std::size_t i = 0; i < handout.job.task_areas.size(); ++i) {
    if (handout.job.task_areas[i].target_lx) {
      figures.task_areas_lx.push_back(handout.light.readings.task_areas[i].average_lx);
    }
  }
  return figures;
}

/// What is wanted in a table's cells: of what, how much, what there is.
std::array<std::string, 3> want_cells(const Want& want, const Job& job) {
  const auto light = [&](double lx) { return light_cell(lx, job.units); };
  const auto share = [](double ratio) { return fixed_text(ratio, 2); };
  const auto money = [&](double amount) { return shown_text(money_text(amount, job.currency)); };
  const auto power = [](double watts) { return plain_power(watts); };
  switch (want.kind) {
    case Want::Kind::average:
      return {"light, on average", light(want.wanted), light(want.has.value)};
    case Want::Kind::minimum:
      return {"light in the darkest spot", light(want.wanted), light(want.has.value)};
    case Want::Kind::uniformity:
      return {"darkest spot as part of the average", share(want.wanted), share(want.has.value)};
    case Want::Kind::watts:
      return {"power, at most", power(want.wanted), power(want.has.value)};
    case Want::Kind::cost:
      return {"price of the lights, at most", money(want.wanted), money(want.has.value)};
    case Want::Kind::task_area:
      break;
  }
  return {fmt::format("light on: {}", shown_text(want.task_area)), light(want.wanted), light(want.has.value)};
}

std::string short_words(double shortfall, bool is_most) {
  return fmt::format("no, {} {}", shortfall < 0.01 ? "less than 1 %" : percent(shortfall),
                     is_most ? "too much" : "short");
}

std::string wants_table(const Handout& handout) {
  const std::vector<Want> wants = wants_of(handout.job, figures_of(handout));
  if (wants.empty()) return paragraph_of("No amount of light was asked for.");
  std::string markup =
      "<table>\n<caption>What the light was to give, and what it gives.</caption>\n<thead><tr><th scope=\"col\">Wanted"
      "</th><th scope=\"col\">How much</th><th scope=\"col\">This plan</th><th "
      "scope=\"col\">Enough?</th></tr></thead>\n"
      "<tbody>\n";
  for (const Want& want : wants) {
    const auto [name, wanted, has] = want_cells(want, handout.job);
    markup += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{}</td></tr>\n", capitalised(name),
                          wanted, has, want.is_met() ? "yes" : short_words(want.shortfall(), want.is_most()));
  }
  return markup + "</tbody>\n</table>\n";
}

/// Whether a layout is the better of two with as many cans: that fits, that lacks less, whose darkest spot is brighter.
bool is_better(const ComparedLayout& a, const ComparedLayout& b) {
  const auto hits = [](const ComparedLayout& row) { return row.misfits.value_or(0) > 0; };
  if (hits(a) != hits(b)) return hits(b);
  const double lacks_a = shortfall(a.wants);
  const double lacks_b = shortfall(b.wants);
  return lacks_a != lacks_b ? lacks_a < lacks_b : a.statistics.minimum_lx > b.statistics.minimum_lx;
}

/// The best layout of each count, by count; the job's own is not among them.
std::map<int, const ComparedLayout*> best_of_counts(const Comparison& comparison) {
  std::map<int, const ComparedLayout*> best;
  for (std::size_t i = 1; i < comparison.rows.size(); ++i) {
    const ComparedLayout& row = comparison.rows[i];
    const auto [at, is_first] = best.emplace(row.count(), &row);
    if (!is_first && is_better(row, *at->second)) at->second = &row;
  }
  return best;
}

std::string layout_row(std::string_view name, const std::string& small, const Statistics& light,
                       const std::string& enough, Units units) {
  return fmt::format("<tr><th scope=\"row\">{}<small>{}</small></th><td>{}</td><td>{}</td><td>{}</td></tr>\n", name,
                     small, light_cell(light.average_lx, units), light_cell(light.minimum_lx, units), enough);
}

std::string gives_words(const std::vector<Want>& wants) {
  if (wants.empty()) return "-";
  const double lacks = shortfall(wants);
  if (lacks == 0) return "yes";
  return fmt::format("no, misses by {}", lacks < 0.01 ? "less than 1 %" : percent(lacks));
}

std::string hits_words(const ComparedLayout& row) {
  const int hits = row.misfits.value_or(0);
  return hits == 0 ? std::string()
                   : fmt::format(", {} would hit framing", counted(static_cast<std::size_t>(hits), "hole"));
}

std::string layouts_table(const Handout& handout) {
  const Comparison& comparison = *handout.comparison;
  const Job& job = handout.job;
  std::string markup = fmt::format(
      "<table>\n<caption>Other numbers of lights, each in its best arrangement of those tried.</caption>\n"
      "<thead><tr><th scope=\"col\">Layout</th><th scope=\"col\">Average</th><th scope=\"col\">Darkest spot</th>"
      "<th scope=\"col\">Gives what is wanted?</th></tr></thead>\n<tbody>\n{}",
      layout_row("This plan", counted(job.cans.size(), "light") + hits_words(comparison.rows.front()),
                 handout.light.work_plane.statistics, gives_words(wants_of(job, figures_of(handout))), job.units));
  for (const auto& [count, row] : best_of_counts(comparison)) {
    markup += layout_row(counted(row->cans.size(), "light"),
                         shown_text(row->layout.name.substr(0, row->layout.name.find(','))) + hits_words(*row),
                         row->statistics, gives_words(row->wants), job.units);
  }
  return markup + "</tbody>\n</table>\n";
}

/// What the comparison means for the number of cans.
std::string count_words(const Comparison& comparison) {
  const ComparedLayout& own = comparison.rows.front();
  if (own.wants.empty()) return "More lights give more light; how many is enough is a matter of taste here.";
  if (!comparison.fewest) return "None of the layouts tried gives all that is wanted.";
  const int fewest = *comparison.fewest;
  const std::string total = counted(static_cast<std::size_t>(fewest + comparison.others), "light");
  if (own.count() > fewest) {
    return fmt::format("{} would be enough for what is wanted; this plan has {} more.", capitalised(total),
                       own.count() - fewest);
  }
  if (own.gives_all())
    return "This plan has no more lights than it takes: of the layouts tried, none with fewer gives all that is "
           "wanted.";
  return fmt::format("It takes {} to give all that is wanted, of the layouts tried.", total);
}

std::string layout_section(const Handout& handout) {
  std::string markup = wants_table(handout);
  if (handout.comparison != nullptr && handout.comparison->rows.size() > 1) {
    markup += layouts_table(handout) + paragraph_of(count_words(*handout.comparison));
  }
  if (const std::size_t count = handout.misfits; count > 0) {
    markup += paragraph_of(
        fmt::format("<strong>Not yet as it can be built:</strong> {} of the {} places {} something above the ceiling "
                    "and {} to move "
                    "before anybody cuts. The light will change a little.",
                    count, handout.job.cans.size(), count == 1 ? "hits" : "hit", count == 1 ? "has" : "have"));
  }
  return section_of("The layout, and why", markup);
}

std::string setting_words(double setting) {
  if (setting >= 0.995) return "full on";
  return fmt::format("at {}", setting < 0.01 ? "less than 1 %" : percent(setting));
}

std::string dimmer_words(const Job& job, const MoodLight& mood) {
  std::vector<std::string> on;
  std::vector<std::string> off;
  for (std::size_t i = 0; i < job.circuits.size(); ++i) {
    const Circuit& circuit = job.circuits[i];
    const std::string name = shown_key(circuit.name);
    if (mood.settings[i] <= 0) {
      off.push_back(name);
    } else {
      on.push_back(circuit.dimmer ? name + " " + setting_words(mood.settings[i]) : name + " on");
    }
  }
  std::string text;
  if (!on.empty()) text = fmt::format("Set: {}. ", enumerated(on));
  if (!off.empty()) text += fmt::format("Off: {}.", enumerated(off));
  return text;
}

bool is_level(const TaskArea& area) { return std::holds_alternative<LevelRectangle>(area.shape); }

/// What the light on a task area does, beside the average of the room.
std::string area_words(const TaskArea& area, double area_lx, double average_lx) {
  if (is_level(area)) return std::string(good_for(area_lx));
  return average_lx > 0 ? fmt::format("{} the room\xE2\x80\x99s average", share_words(area_lx / average_lx)) : "dark";
}

/// What disturbs at the seats: glare, and screens that mirror lights.
std::vector<std::string> seat_items(const MoodLight& mood) {
  std::vector<std::string> items;
  for (const SeatView& view : mood.seats) {
    std::vector<std::string> disturbing;
    if (view.glare.unified_rating && is_glare_disturbing(*view.glare.unified_rating)) {
      disturbing.push_back(fmt::format("glare: {}", glare_words(*view.glare.unified_rating)));
    }
    for (const ScreenImages& each : view.screens)
      disturbing.push_back(fmt::format("lights mirror in: {}", shown_text(each.screen)));
    if (!disturbing.empty()) {
      items.push_back(
          fmt::format("at the seat \xE2\x80\x9C{}\xE2\x80\x9D {}", shown_text(view.seat), enumerated(disturbing)));
    }
  }
  if (items.empty() && !mood.seats.empty()) items.emplace_back("nothing glares at the seats");
  return items;
}

/// The wishes of a mood that are missed by more than the eye forgives.
std::string missed_words(const MoodLight& mood) {
  constexpr double k_forgiven = 0.1;  // common practice, no source
  constexpr double k_nearly = 0.3;
  double worst = 0;
  std::vector<std::string> missed;
  for (const WishLight& wish : mood.wishes) {
    const double off = wish.result.off_by;
    if (std::abs(off) <= k_forgiven) continue;
    worst = std::max(worst, std::abs(off));
    const std::string area = wish.area.empty() ? "the room" : shown_text(wish.area);
    const std::string much = std::isfinite(off) ? percent(std::abs(off)) + " " : std::string();
    missed.push_back(fmt::format("{}, {}{}", area, much, off < 0 ? "too little" : "too much"));
  }
  return missed.empty() ? std::string()
                        : fmt::format("{} as wished: {}.", worst <= k_nearly ? "Not quite" : "Not", enumerated(missed));
}

std::string mood_article(const Handout& handout, std::size_t index) {
  const Job& job = handout.job;
  const MoodLight& mood = handout.moods->moods[index];
  const double average_lx = mood.light.work_plane.statistics.average_lx;
  std::string markup = fmt::format("<article>\n<h3>{}</h3>\n", capitalised(shown_text(mood.name)));
  if (index < handout.mood_pictures.size() && !handout.mood_pictures[index].png.empty()) {
    markup += figure_of("seen", handout.mood_pictures[index]);
  }
  markup += paragraph_of(
      fmt::format("<strong>{}</strong> on average: {}.", light_cell(average_lx, job.units), good_for(average_lx)));
  std::vector<std::string> items;
  for (std::size_t i = 0; i < job.task_areas.size(); ++i) {
    const double lx = mood.light.readings.task_areas[i].average_lx.value;
    items.push_back(fmt::format("{}: {}, {}", shown_text(job.task_areas[i].name), light_cell(lx, job.units),
                                area_words(job.task_areas[i], lx, average_lx)));
  }
  for (std::string& item : seat_items(mood)) items.push_back(std::move(item));
  if (mood.colour && mood.colour->tone) {
    const double kelvin = std::round(mood.colour->tone->kelvin / 10) * 10;
    items.push_back(fmt::format("colour: {} ({} K)", tone_words(kelvin), fixed_text(kelvin, 0)));
  }
  markup += list_of(items);
  markup += paragraph_of(dimmer_words(job, mood));
  if (const std::string missed = missed_words(mood); !missed.empty()) markup += paragraph_of(missed);
  if (mood.watts) {
    markup += paragraph_of(fmt::format("Power {}{}.", plain_power(*mood.watts),
                                       mood.energy ? fmt::format(", {}", year_words(*mood.energy, job)) : ""));
  }
  return markup + "</article>\n";
}

std::string moods_section(const Handout& handout) {
  if (handout.moods == nullptr) return {};
  std::string markup = "<div class=\"moods\">\n";
  for (std::size_t i = 0; i < handout.moods->moods.size(); ++i) markup += mood_article(handout, i);
  return section_of("The room in its moods", markup + "</div>\n");
}

std::string map_section(const Handout& handout) {
  const Job& job = handout.job;
  const WorkPlaneLight& plane = handout.light.work_plane;
  return section_of(
      "The map of light",
      figure_of("map",
                {.title = "The room from above",
                 .caption = "The brighter the colour, the more light. Each line joins places of equal light; numbered "
                            "circles are the lights. The scale has foot-candles (fc) and lux (lx), the units of light "
                            "on a surface.",
                 .alt = fmt::format("Plan of {} with {}, coloured by how much light there is: {} on average, {} in "
                                    "the darkest spot, {} in the brightest.",
                                    room_name(job), counted(job.cans.size(), "light"),
                                    plain_illuminance(plane.statistics.average_lx, job.units),
                                    plain_illuminance(plane.statistics.minimum_lx, job.units),
                                    plain_illuminance(plane.statistics.maximum_lx, job.units)),
                 .png = handout.map_png}));
}

std::string table_row(std::string_view name, const std::string& small, std::string_view figure,
                      std::string_view words) {
  return fmt::format("<tr><th scope=\"row\">{}{}</th><td>{}</td><td>{}</td></tr>\n", name,
                     small.empty() ? small : fmt::format("<small>{}</small>", small), figure, words);
}

std::string expect_section(const Handout& handout) {
  const Job& job = handout.job;
  const WorkPlaneLight& plane = handout.light.work_plane;
  const Statistics& light = plane.statistics;
  const auto place = [&](int point) {
    return markup_text(location_text(job.room, plane.grid.points_m[static_cast<std::size_t>(point)], job.units));
  };
  std::string markup = fmt::format(
      "<table>\n<caption>The light {}, {}.</caption>\n<thead><tr><th scope=\"col\">Where</th>"
      "<th scope=\"col\">How much</th><th scope=\"col\">What that is</th></tr></thead>\n<tbody>\n",
      plane_words(job), switched_words(job));
  const auto cell = [&](double lx) { return light_cell(lx, job.units); };
  markup += table_row("The room, on average", {}, cell(light.average_lx), good_for(light.average_lx));
  markup +=
      table_row("The brightest spot", place(light.maximum_at), cell(light.maximum_lx), good_for(light.maximum_lx));
  markup +=
      table_row("The darkest spot", place(light.minimum_at), cell(light.minimum_lx),
                fmt::format("{}; {} the average", good_for(light.minimum_lx), share_words(light.uniformity_min_avg)));
  for (std::size_t i = 0; i < job.task_areas.size(); ++i) {
    const double lx = handout.light.readings.task_areas[i].average_lx.value;
    markup += table_row(capitalised(shown_text(job.task_areas[i].name)), {}, cell(lx),
                        area_words(job.task_areas[i], lx, light.average_lx));
  }
  if (plane.watts) {
    const std::string year = handout.moods == nullptr && handout.energy
                                 ? fmt::format("; at {} hours a day {}", shortest_text(job.energy.hours.value_or(0)),
                                               year_words(*handout.energy, job))
                                 : std::string();
    markup += table_row("Power", {}, plain_power(*plane.watts), power_words(*plane.watts) + year);
  }
  return section_of("What to expect", markup + "</tbody>\n</table>\n");
}

std::string finish_item(std::string_view name, double reflectance) {
  return fmt::format("{} {} ({})", name, finish_words(reflectance), percent(reflectance));
}

std::string finishes_words(const Job& job) {
  std::vector<std::string> items{finish_item("floor", job.finishes.floor), finish_item("ceiling", job.finishes.ceiling),
                                 finish_item("walls", job.finishes.walls)};
  for (const auto& [wall, reflectance] : job.finishes.wall) {
    items.push_back(finish_item(shown_text(wall) + " wall", reflectance));
  }
  return enumerated(items);
}

/// What the light of the lights is taken from.
std::vector<std::string> source_items(const Job& job) {
  std::vector<std::string> items;
  for (const CanType& type : job.can_types) {
    if (std::ranges::none_of(job.cans, [&](const Can& can) { return can.type == type.name; })) continue;
    const std::string name = fmt::format("Lights of type \xE2\x80\x9C{}\xE2\x80\x9D", shown_key(type.name));
    const std::string kept = type.light_loss_factor < 1
                                 ? fmt::format(" They are counted at {} of their light when new, for dust and ageing.",
                                               percent(type.light_loss_factor))
                                 : std::string(" They are counted as new.");
    const std::string file = shown_text(type.file.substr(type.file.find_last_of("/\\") + 1));
    items.push_back(
        type.file.empty()
            ? name + ": a smooth beam is assumed, not measured data." + kept
            : fmt::format("{}: light by the data file {}. Another product gives other light.{}", name, file, kept));
  }
  return items;
}

std::string assumptions_section(const Handout& handout) {
  const Job& job = handout.job;
  std::vector<std::string> items{
      "This is calculated, not measured. Expect the finished room within about a fifth of these figures.",
      fmt::format("Surfaces, with the part of the light that they send back: {}. Darker paint or carpet makes the room "
                  "darker.",
                  finishes_words(job)),
  };
  for (std::string& item : source_items(job)) items.push_back(std::move(item));
  items.push_back("Only these lights count: no daylight, no other lamps.");
  items.push_back(job.obstructions.empty()
                      ? "The room is counted empty: furniture makes shadows and takes some of the light."
                      : "Furniture counts as plain boxes; what is not named above throws no shadow.");
  items.push_back(fmt::format("The arithmetic itself is good to {} of the average.",
                              error_percent_text(worst_error_share(handout.light.work_plane))));
  return section_of("What was assumed", list_of(items));
}

std::string cautions_section() {
  const auto list = [](std::span<const std::string_view> sentences) {
    std::vector<std::string> items;
    for (const std::string_view sentence : sentences) items.push_back(markup_text(sentence));
    return list_of(items);
  };
  return section_of("Before the work", "<div class=\"mind\">\n<p>For you</p>\n" + list(owner_cautions()) +
                                           "</div>\n<p>What those who do the work will mind:</p>\n" + list(cautions()));
}

std::string seen_words(const Job& job, const std::string& mood, double average_lx) {
  return fmt::format("Calculated picture of {}{}: {} on average.", room_name(job), mood.empty() ? "" : ", " + mood,
                     plain_illuminance(average_lx, job.units));
}

}  // namespace

HandoutPicture room_picture(const Job& job, const RoomLight& light, std::string png) {
  const double average_lx = light.work_plane.statistics.average_lx;
  return {.title = "The room as it will look",
          .caption = fmt::format("A picture made from the calculated light, {}: {} on average, {}.",
                                 switched_words(job), plain_illuminance(average_lx, job.units), good_for(average_lx)),
          .alt = seen_words(job, "", average_lx),
          .png = std::move(png)};
}

HandoutPicture mood_picture(const Job& job, const MoodLight& mood, std::string png) {
  return {.title = {},
          .caption = {},
          .alt = seen_words(job, mood.name, mood.light.work_plane.statistics.average_lx),
          .png = std::move(png)};
}

std::string handout_html(const Handout& handout) {
  return fmt::format(
             "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
             "<meta http-equiv=\"Content-Security-Policy\" "
             "content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">\n"
             "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
             "<title>Plan of light: {}</title>\n<style>{}</style>\n</head>\n<body>\n<div class=\"sheet\">\n",
             shown_text(room_name(handout.job)), k_handout_style) +
         opening(handout) + "<main>\n" + room_section(handout) + layout_section(handout) + expect_section(handout) +
         map_section(handout) + assumptions_section(handout) + moods_section(handout) + cautions_section() +
         "</main>\n</div>\n</body>\n</html>\n";
}

std::string handout_text(const Handout& handout, const Problems& warnings) {
  return filled(fmt::format("{}: handout.", printable(room_name(handout.job))), k_columns, 2) +
         heading("What it tells") + paragraph(verdict(handout.job, handout.light.work_plane)) +
         warning_section(warnings);
}

}  // namespace evenlit
