#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "evenlit/base/result.hpp"

namespace evenlit {

/// A file's content and what messages call it.
struct NamedText {
  std::string_view bytes;
  std::string_view name;
};

/// A job file with changes made to it.
struct ChangedText {
  std::string bytes;
  std::vector<std::string> done;  ///< a line a change, without line feed
};

/// Why changes cannot be made. A problem's place is in the job file, in the file of changes, or in `changed`, whose
/// name is `name_of_changed`.
struct RefusedChanges {
  Problems problems;    ///< never empty
  std::string changed;  ///< the job's text after the changes that came before, or all
};

/// What messages call the text of a job while it is changed: "my-room.toml, changed".
std::string name_of_changed(std::string_view job_name);

inline constexpr std::size_t k_most_changes = 1000;

/// The bytes of a job file (TOML) in which nothing is changed but what a list of changes names: comments, blank lines,
/// order, units, line ends and a byte order mark stay.
///
/// Changes are a JSON array (RFC 8259) of objects, made one after the other. A path is an array of keys and zero-based
/// indices.
/// - `{"set": PATH, "value": V}` gives a value to a key or element; a key or table that is not there is added. A table
///   or an array of tables is changed part by part; a part that has its value already stays as it is written.
/// - `{"remove": PATH}` takes away a key, a table or an element; with a table go its subtables and the comment lines
///   that stand right on it.
/// - `{"add": PATH, "value": V}` appends an element to a list, behind the last of its kind.
/// - `{"move": PATH, "to_m": [X, Y]}` moves a thing's centre to a point of the plan: taped from the same walls, to the
///   nearest 1/16 in or millimetre; what is on a wall goes along it to the nearest place; what has corners is shifted
///   whole, the middle of their bounds to the point.
/// - `{"cans": [{"type": T, "x_m": X, "y_m": Y, ...}, ...]}` puts these cans in the place of all, taped from the
/// nearest
///   walls; other keys of a can are taken as they are.
///
/// @errors a job or changes that cannot be read, the first change that cannot be made, or what `read_job` says of the
///         changed text
tl::expected<ChangedText, RefusedChanges> changed_text(const NamedText& job, const NamedText& changes);

}  // namespace evenlit
