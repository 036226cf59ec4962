#pragma once

#include <string>
#include <vector>

namespace evenlit {

/// What a command ends with.
enum ExitStatus {
  k_done = 0,
  k_cannot_write = 1,  ///< the input was fine, an output could not be written
  k_bad_input = 2,     ///< a mistake in the command line or in a file; nothing was written
};

/// Shows a message on standard error and gives the status to end with.
int refused(const std::string& text, ExitStatus status = k_bad_input);

/// Shows a text on standard output; `k_done`.
int shown(const std::string& text);

/// `evenlit light`: the light on a room's work plane.
///
/// @param arguments what stands after the command's name
int light_command(const std::vector<std::string>& arguments);

/// `evenlit change`: a job file with changes, the rest of its text kept.
int change_command(const std::vector<std::string>& arguments);

/// `evenlit room`: a job as it stands, resolved and measured.
int room_command(const std::vector<std::string>& arguments);

/// `evenlit holes`: whether the cans' holes and housings clear what is above the ceiling.
int holes_command(const std::vector<std::string>& arguments);

/// `evenlit compare`: the light of usual layouts of the job's cans, or of several jobs, side by side.
int compare_command(const std::vector<std::string>& arguments);

/// `evenlit search`: the best layouts of the job's cans, of all that fit.
int search_command(const std::vector<std::string>& arguments);

/// `evenlit setout`: where the cans go, for the crew that marks and cuts.
int setout_command(const std::vector<std::string>& arguments);

/// `evenlit moods`: the room in its moods.
int moods_command(const std::vector<std::string>& arguments);

/// `evenlit wiring`: cable, boxes and small parts, what to buy, the work in order.
int wiring_command(const std::vector<std::string>& arguments);

/// `evenlit view`: the room as an eye will see it.
int view_command(const std::vector<std::string>& arguments);

/// `evenlit handout`: the plan of light as a page for who lives in the room.
///
/// @param arguments what stands after the command's name
int handout_command(const std::vector<std::string>& arguments);

/// `evenlit page`: a page with the job, to work on in a browser without a network.
int page_command(const std::vector<std::string>& arguments);

/// `evenlit meter`: readings of the finished room against the prediction.
int meter_command(const std::vector<std::string>& arguments);

/// `evenlit photometry`: what a photometric file says of its luminaire.
int photometry_command(const std::vector<std::string>& arguments);

/// `evenlit beam`: a round beam from its lumens and angles.
int beam_command(const std::vector<std::string>& arguments);

}  // namespace evenlit
