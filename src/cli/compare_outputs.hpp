#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "evenlit/drawing/difference_map.hpp"
#include "output_files.hpp"

namespace evenlit {

/// What a comparison writes besides its text.
struct CompareOutputs {
  std::optional<std::filesystem::path> csv;
  std::optional<std::filesystem::path> json;
  std::optional<std::filesystem::path> sheet;
  bool with_views = false;  ///< on the sheet
  std::optional<LayoutPair> difference;
  std::optional<std::filesystem::path> difference_map;
  std::optional<int> width_px;  ///< empty: as wide as each picture is drawn

  [[nodiscard]] std::vector<std::filesystem::path> paths() const;

  /// A picture of a room.
  [[nodiscard]] OutputFile drawn_file(const Drawing& drawing, const std::filesystem::path& path,
                                      const std::string& title) const;

  /// The rows that the difference names, where there are not so many.
  [[nodiscard]] Problems row_problems(std::size_t rows) const;
};

}  // namespace evenlit
