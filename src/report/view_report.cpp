#include "evenlit/report/view_report.hpp"

#include <fmt/format.h>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/length.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/cautions.hpp"
#include "evenlit/report/location.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/view/luminance_range.hpp"
#include "exposure_json.hpp"
#include "json_values.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

std::string luminance_text(double cd_m2) { return rounded_text(cd_m2) + " cd/m2"; }

LuminanceRange range_of(const SeenRoom& seen) { return luminance_range(std::span(&seen.picture, 1)); }

std::string mood_text(const ViewFacts& facts) {
  return facts.mood ? fmt::format("mood {}", printable(*facts.mood)) : std::string("the cans' own levels");
}

std::string shown_with(const ViewFacts& facts) {
  if (facts.pictures == 1) return "this picture alone";
  return fmt::format("all {} moods, so that their pictures compare", facts.pictures);
}

Json exposure_of(const ViewFacts& facts) {
  Json json{{"pictures", facts.pictures}};
  json.update(exposure_json(facts.exposure));
  json["mapping"] =
      "Ward 1994, visibility matching; Reinhard et al. 2002, equation 4; veil by CIE 146:2002; IEC 61966-2-1";
  return json;
}

}  // namespace

std::string view_text(const ViewFacts& facts, const Problems& warnings) {
  const LuminanceRange range = range_of(facts.seen);
  const Units units = facts.job.units;
  std::string text =
      filled(fmt::format("{}, {}: {}.", printable(facts.job.room.name), printable(facts.viewpoint), mood_text(facts)),
             k_columns, 2);
  text += heading("What the eye sees");
  text += row("Eye above the floor", length_text(facts.camera.eye_m.z(), units));
  text += row("Usual luminance", luminance_text(range.usual_cd_m2));
  text += row("Darkest but 1 %", luminance_text(range.darkest_cd_m2));
  text += row("Brightest but 1 %", luminance_text(range.brightest_cd_m2));
  text += heading("How a screen shows it");
  text += row("Eye adapted to", luminance_text(facts.exposure.adaptation_cd_m2));
  text += row("Exposure for", shown_with(facts));
  text += paragraph(fmt::format(
      "A screen of {} cd/m2 in a room that is not too bright shows it about as bright as it will look (visibility "
      "matching: Ward 1994, with the shoulder of Reinhard and others, 2002); light of openings scatters in the eye as "
      "CIE 146 has it, aged 40.",
      rounded_text(k_screen_white_cd_m2)));
  return text + warning_section(warnings);
}

std::string view_description(const ViewFacts& facts) {
  return fmt::format(
      "{}, {}, {}. Calculated luminances, adapted to {}; exposure for {}. Screen of {} cd/m2: Ward 1994 (visibility "
      "matching), Reinhard et al. 2002 (shoulder), veil by CIE 146:2002, IEC 61966-2-1.",
      facts.job.room.name, facts.viewpoint, facts.mood ? "mood " + *facts.mood : std::string("the cans' own levels"),
      luminance_text(facts.exposure.adaptation_cd_m2), shown_with(facts), rounded_text(k_screen_white_cd_m2));
}

std::string view_json(const ViewFacts& facts, const Problems& warnings) {
  const LuminanceRange range = range_of(facts.seen);
  const Camera& camera = facts.camera;
  const auto vector = [](const Eigen::Vector3d& v) { return Json{number(v.x()), number(v.y()), number(v.z())}; };
  return json_text({{"format", "evenlit view"},
                    {"version", k_version},
                    {"room", facts.job.room.name},
                    {"view", facts.viewpoint},
                    {"mood", facts.mood ? Json(*facts.mood) : Json(nullptr)},
                    {"camera",
                     {{"eye_m", vector(camera.eye_m)},
                      {"forward", vector(camera.forward)},
                      {"width_px", camera.size.width},
                      {"height_px", camera.size.height},
                      {"focal_px", number(camera.focal_px)}}},
                    {"luminance",
                     {{"usual_cd_m2", number(range.usual_cd_m2)},
                      {"darkest_but_1_percent_cd_m2", number(range.darkest_cd_m2)},
                      {"brightest_but_1_percent_cd_m2", number(range.brightest_cd_m2)}}},
                    {"light_linear_rgb", rgb_json(facts.seen.light_rgb)},
                    {"exposure", exposure_of(facts)},
                    {"warnings", remarks(warnings)}});
}

}  // namespace evenlit
