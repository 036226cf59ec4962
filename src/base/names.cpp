#include "evenlit/base/names.hpp"

#include <algorithm>
#include <vector>

#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Fewest insertions, deletions, replacements and swaps of neighbours that turn `a` into `b`, no place edited twice.
///
/// @source L. Boytsov, "Indexing methods for approximate dictionary searching", ACM J. Exp. Algorithmics 16 (2011),
///         "restricted" Damerau-Levenshtein distance (recurrence from memory)
int edit_distance(std::string_view a, std::string_view b) {
  std::vector<int> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = lower(a[i - 1]) == lower(b[j - 1]);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0 : 1)});
      const bool swapped = i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) && lower(a[i - 2]) == lower(b[j - 1]);
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

std::size_t difference(std::size_t a, std::size_t b) { return a > b ? a - b : b - a; }

}  // namespace

std::string nearest_name(std::string_view name, std::span<const std::string_view> known) {
  // At most a third of the letters may differ; a distance is at least the difference of the lengths.
  int least = static_cast<int>(name.size() / 3) + 1;
  std::string_view nearest;
  for (const auto candidate : known) {
    if (difference(candidate.size(), name.size()) >= static_cast<std::size_t>(least)) continue;
    const int distance = edit_distance(name, candidate);
    if (distance >= least) continue;
    least = distance;
    nearest = candidate;
  }
  return std::string(nearest);
}

std::string quoted(std::string_view text) {
  constexpr int k_longest = 60;
  std::size_t end = 0;
  for (int points = 0; points < k_longest && end < text.size(); ++points) {
    end += static_cast<std::size_t>(first_code_point(text.substr(end)).bytes);
  }
  const auto* dots = end < text.size() ? "..." : "";
  return '"' + std::string(text.substr(0, end)) + dots + '"';
}

}  // namespace evenlit
