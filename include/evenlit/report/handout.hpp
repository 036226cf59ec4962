#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/field/readings_light.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/moods/room_moods.hpp"
#include "evenlit/placing/comparison.hpp"

namespace evenlit {

/// A picture as the handout shows it.
struct HandoutPicture {
  std::string title;    ///< like `From the door`; empty: there is no caption either
  std::string caption;  ///< a sentence; may be empty
  std::string alt;      ///< what it shows, for those who do not see it
  std::string png;      ///< the bytes of a PNG file
};

/// The room as people see it, at the levels of its cans.
HandoutPicture room_picture(const Job& job, const RoomLight& light, std::string png);

/// The room in a mood as people see it, to stand below the mood's name.
HandoutPicture mood_picture(const Job& job, const MoodLight& mood, std::string png);

/// What a handout tells of.
struct Handout {
  const Job& job;
  const RoomLight& light;                      ///< of the job, at the levels of its cans
  std::optional<YearlyEnergy> energy;          ///< of that light; empty where its hours or watts are not known
  std::size_t misfits = 0;                     ///< cans that do not clear what is above the ceiling (`misfits`)
  const RoomMoods* moods = nullptr;            ///< null where the job has none
  const Comparison* comparison = nullptr;      ///< null where none was asked for
  std::optional<HandoutPicture> room_picture;  ///< the room as people see it, at the levels of its cans
  std::vector<HandoutPicture> mood_pictures;   ///< the room in each mood as people see it: none, or one a mood
  std::string map_png;                         ///< `plan_map` of the light
};

/// The plan of light for who lives in the room, who need know nothing of lighting: one HTML page that needs no other
/// file, has no scripts, reads on a phone and prints on three sheets or so of Letter or A4 paper. Numbers have two
/// digits at most. It tells the room, the layout and why, the moods, the map of light, what to expect, what was assumed
/// and what to mind.
///
/// All text of the job stays text, whatever it holds.
///
/// @source HTML Living Standard; WCAG 2.1, level AA (contrast, headings, alternatives)
std::string handout_html(const Handout& handout);

/// What the handout comes to, for the terminal of who makes it, with warnings that it does not repeat. Lines of at most
/// 80 columns, a single longer word excepted.
std::string handout_text(const Handout& handout, const Problems& warnings);

}  // namespace evenlit
