#include "meter_words.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/plain_text.hpp"

namespace evenlit {
namespace {

/// Less than this of new lamps over maintained ones is not worth a word.
constexpr double k_noticeable = 0.02;

std::string range_text(const Interval& ratio) {
  return fmt::format("95 %: {} to {}", off_text(ratio.least), off_text(ratio.most));
}

/// What new lamps do to the comparison; empty where the prediction has no light loss in it.
std::string new_lamps_text(const MeterCheck& check, const Interval& factor) {
  const double ratio = check.new_over_maintained;
  if (ratio < 1 + k_noticeable) return {};
  const std::string expected =
      fmt::format(" The prediction has a light loss factor of {} in it: new lamps should read {} it.",
                  fixed_text(1 / ratio, 2), off_text(ratio));
  const bool fits_new = factor.contains(ratio);
  if (factor.contains(1)) {
    return expected + (fits_new ? " This meter cannot tell the two apart here." : " The readings are short of that.");
  }
  if (fits_new) return expected + " That alone would explain it.";
  return expected + (factor.value > ratio ? " The readings are above even that." : " The readings are short of that.");
}

std::string whole_room_text(const MeterCheck& check) {
  const FittedFactor& factor = *check.fit.factor;
  const double ratio = factor.value.value;
  const std::string new_lamps = new_lamps_text(check, factor.value);
  if (factor.value.contains(1)) {
    return fmt::format("Within what this meter can tell: on average the readings are {} the prediction ({}).{}",
                       off_text(ratio), range_text(factor.value), new_lamps);
  }
  const bool is_brighter = ratio > 1;
  std::string text = fmt::format("The room is {} % {} than predicted ({}).{}", fixed_text(100 * std::abs(ratio - 1), 0),
                                 is_brighter ? "brighter" : "darker", range_text(factor.value), new_lamps);
  if (!is_brighter) {
    return text +
           " Reasons to look for: a dimmer's trim or setting, lamps of fewer lumens than their file's, dirt, low "
           "voltage, darker finishes, furniture that the job does not have, a meter that misjudges LED light.";
  }
  const bool new_lamps_do =
      check.new_over_maintained >= 1 + k_noticeable && factor.value.contains(check.new_over_maintained);
  if (new_lamps_do) return text;
  return text +
         " Reasons to look for: daylight or other lamps, lamps of more lumens than their file's, lighter finishes, a "
         "meter that misjudges LED light.";
}

std::string scatter_text(const MeterCheck& check) {
  constexpr double k_careful = 0.1;  // of careful readings of a room as predicted: common practice, no source
  const double scatter = check.fit.factor->scatter;
  if (scatter <= k_careful) return {};
  return fmt::format(
      "The readings scatter by {} about that, more than careful ones of a room as predicted do: mind the places and "
      "heights, the shadow of who reads, and what stands in the room.",
      percent_text(scatter));
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " and " : ", ";
    text += words[i];
  }
  return text;
}

std::vector<std::string> surface_texts(const MeterCheck& check) {
  std::vector<std::string> texts;
  std::vector<std::string> as_job;
  std::vector<std::string> untold;
  for (std::size_t i = 0; i < 3; ++i) {
    const FittedShift& shift = check.fit.surfaces->shifts[i];
    const double job = check.reflectance[i];
    const std::string name = "the " + surface_word(i);
    if (!shift.is_told) {
      untold.push_back(name);
    } else if (shift.value.contains(0)) {
      as_job.push_back(name);
    } else {
      texts.push_back(fmt::format(
          "Of other finishes, the readings go best with {}{} {} than in the job: a reflectance of {} ({} to {}), not "
          "{}.",
          i == 2 ? "" : "a ", shift.value.value < 0 ? "darker" : "lighter", surface_word(i),
          fixed_text(job + shift.value.value, 2), fixed_text(job + shift.value.least, 2),
          fixed_text(job + shift.value.most, 2), fixed_text(job, 2)));
    }
  }
  if (!texts.empty()) {
    const Interval& factor = check.fit.surfaces->factor;
    texts.back() += fmt::format(" With the finishes that go best, all light is {} the prediction ({}).",
                                off_text(factor.value), range_text(factor));
  }
  if (!as_job.empty())
    texts.push_back(fmt::format("The readings go with the job's reflectance of {}.", joined(as_job)));
  if (!untold.empty()) {
    texts.push_back(fmt::format("These readings cannot tell the reflectance of {}: the job's stays.", joined(untold)));
  }
  return texts;
}

std::string outlier_text(const MeterFacts& facts, std::size_t index) {
  const ComparedReading& reading = facts.check.fit.readings[index];
  const std::string what =
      fmt::format("{} reads {} what the others lead to expect; nothing is fitted to it.",
                  quoted(printable(facts.check.readings[index].point.name)), off_text(1 + reading.residual));
  if (reading.residual > 0) {
    return what + " Read it again: daylight, another lamp, a sensor off its mark or held too high, a wrong figure?";
  }
  if (!reading.suspect) {
    return what + " No single can explains it. Read it again: a shadow, a sensor off its mark, a wrong figure?";
  }
  const auto& [can, missing] = *reading.suspect;
  const Can& suspect = facts.job.cans[static_cast<std::size_t>(can)];
  const Taped(&from)[2] = suspect.from;
  return what + fmt::format(
                    " Is can {} ({}, {} from {}, {} from {}) at full output? {} of its light missing would "
                    "explain it best. Read it again first: a shadow or a sensor off its mark does the same.",
                    can + 1, printable(suspect.type), length_text(from[0].distance_m, facts.job.units),
                    printable(from[0].wall), length_text(from[1].distance_m, facts.job.units), printable(from[1].wall),
                    percent_text(missing));
}

}  // namespace

std::string surface_word(std::size_t index) {
  constexpr std::array<const char*, 3> k_words{"floor", "ceiling", "walls"};
  return k_words[index];
}

std::string off_text(double ratio) {
  const std::string percent = fixed_text(100 * std::abs(ratio - 1), 0);
  if (percent == "0") return "level with";
  return fmt::format("{} % {}", percent, ratio > 1 ? "above" : "below");
}

std::vector<std::string> meter_verdict(const MeterFacts& facts) {
  const MeterFit& fit = facts.check.fit;
  std::vector<std::string> texts;
  if (fit.factor) {
    texts.push_back(whole_room_text(facts.check));
    if (std::string scatter = scatter_text(facts.check); !scatter.empty()) texts.push_back(std::move(scatter));
  } else {
    texts.push_back(fmt::format("On average the readings are {} the prediction; too few to tell more.",
                                off_text(1 + fit.average.value_or(0))));
  }
  bool has_suspect = false;
  for (std::size_t i = 0; i < fit.readings.size(); ++i) {
    if (!fit.readings[i].is_outlier) continue;
    texts.push_back(outlier_text(facts, i));
    has_suspect = has_suspect || fit.readings[i].suspect.has_value();
  }
  if (fit.surfaces) {
    for (std::string& text : surface_texts(facts.check)) texts.push_back(std::move(text));
  }
  if (has_suspect) {
    texts.push_back(
        "Before a can is opened its circuit is switched off at the panel and proved dead at the work, by a licensed "
        "electrician under the local code.");
  }
  return texts;
}

}  // namespace evenlit
