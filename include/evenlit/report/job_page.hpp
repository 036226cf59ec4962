#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evenlit/base/result.hpp"

namespace evenlit {

/// A file that a job names.
struct NamedFile {
  std::string name;  ///< as the job has it
  std::string_view bytes;
};

/// The blank page with a job put into it, to be opened in a browser: all of evenlit in one HTML file, with this job.
///
/// @param blank a page with one empty `<script type="application/json" id="job">`
/// @param name of the job's file, without its folder
/// @param text of the job, UTF-8
/// @errors the blank page has no empty place for a job, or more than one
Result<std::string> job_page(std::string_view blank, const std::string& name, std::string_view text,
                             const std::vector<NamedFile>& files, const Place& blank_place);

}  // namespace evenlit
