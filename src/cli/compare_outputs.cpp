#include "compare_outputs.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "pictures.hpp"

namespace evenlit {

std::vector<std::filesystem::path> CompareOutputs::paths() const {
  return paths_of({csv, json, sheet, difference_map});
}

OutputFile CompareOutputs::drawn_file(const Drawing& drawing, const std::filesystem::path& path,
                                      const std::string& title) const {
  return drawn(drawing, path, title, width_px.value_or(static_cast<int>(drawing.width)));
}

Problems CompareOutputs::row_problems(std::size_t rows) const {
  if (!difference || std::max(difference->before, difference->after) < static_cast<int>(rows)) return {};
  return {{whole_file("evenlit compare"),
           fmt::format("--difference {},{} names a layout that is not there", difference->before + 1,
                       difference->after + 1),
           fmt::format("the layouts of these counts have the numbers 1 to {}", rows)}};
}

}  // namespace evenlit
