#include "eulumdat_layout.hpp"

#include <fmt/format.h>

#include <cmath>

namespace evenlit {
namespace {

class LayoutFinder {
 public:
  LayoutFinder(const Source& source, const EulumdatHeader& header, const EulumdatNumbers& numbers, Problems& warnings)
      : source_(source), header_(header), numbers_(numbers), warnings_(warnings) {}

  Result<EulumdatLayout> find() {
    const auto stored = stored_planes(header_.symmetry, list_is_closed() ? header_.planes - 1 : header_.planes);
    const auto declared = stored ? std::optional(layout(header_.planes, *stored)) : std::nullopt;
    if (declared && fits(*declared)) return *declared;
    if (const auto other = other_layout(stored)) return *other;
    if (!declared) {
      return failure(
          line_place(l_planes),
          fmt::format("number of C planes {} does not fit symmetry indicator {}", header_.planes, header_.symmetry),
          header_.symmetry == 2 ? "write an even number" : "write a multiple of 4");
    }
    if (const auto symmetry = fitting_symmetry()) {
      return failure(
          line_place(l_symmetry),
          fmt::format("table has {} intensities, symmetry indicator {} needs {}",
                      numbers_.size() - declared->first_intensity(), header_.symmetry, declared->intensities()),
          fmt::format("symmetry indicator {} would fit", *symmetry));
    }
    if (numbers_.size() < declared->size()) return too_few(*declared);
    return *declared;
  }

 private:
  EulumdatLayout layout(std::size_t listed, std::size_t planes) const { return {listed, header_.verticals, planes}; }

  bool fits(const EulumdatLayout& layout) const { return layout.size() == numbers_.size(); }

  Place line_place(int line) const { return source_.place(header_.line(line)); }

  /// Whether the list of C angles ends at 360, which is the first plane again.
  bool list_is_closed() const {
    const std::size_t planes = header_.planes;
    return header_.symmetry != 0 && planes > 1 && planes <= numbers_.size() &&
           std::abs(numbers_[planes - 1] - 360) <= 0.05;
  }

  std::optional<EulumdatLayout> other_layout(std::optional<std::size_t> stored) {
    if (header_.symmetry == 0) return std::nullopt;
    EulumdatLayout all = layout(header_.planes, header_.planes);
    if (fits(all)) {
      all.has_all_planes = true;
      return all;
    }
    if (!stored || !fits(layout(*stored, *stored))) return std::nullopt;
    warnings_.push_back(
        {numbers_.place(0),
         fmt::format("{} C angles are listed instead of {}: those of the stored planes only", *stored, header_.planes),
         "list the C angles of the full circle"});
    return layout(*stored, *stored);
  }

  std::optional<int> fitting_symmetry() const {
    for (int symmetry = 0; symmetry <= 4; ++symmetry) {
      const auto stored = stored_planes(symmetry, header_.planes);
      if (stored && fits(layout(header_.planes, *stored))) return symmetry;
    }
    return std::nullopt;
  }

  tl::unexpected<Problems> too_few(const EulumdatLayout& declared) const {
    const std::size_t size = numbers_.size();
    const bool in_planes = size < declared.listed;
    const bool in_verticals = !in_planes && size < declared.first_intensity();
    const std::string_view what = in_planes ? "C angles" : in_verticals ? "vertical angles" : "intensities";
    if (const auto word = numbers_.not_a_number(); !word.empty()) {
      return failure(source_.place(word), fmt::format("{} is not a number (reading {})", as_written(word), what));
    }
    const std::size_t before = in_planes ? 0 : in_verticals ? declared.listed : declared.first_intensity();
    const auto expected =
        in_planes      ? fmt::format("{}", declared.listed)
        : in_verticals ? fmt::format("{}", declared.verticals)
                       : fmt::format("{} x {} = {}", declared.planes, declared.verticals, declared.intensities());
    return failure(numbers_.end(), fmt::format("expected {} {}, the file ends after {}", expected, what, size - before),
                   "check the declared numbers of angles, and that the file is complete");
  }

  const Source& source_;
  const EulumdatHeader& header_;
  const EulumdatNumbers& numbers_;
  Problems& warnings_;
};

}  // namespace

std::size_t most_numbers(const EulumdatHeader& header) {
  return header.planes + header.verticals + header.planes * header.verticals + 1;
}

std::optional<std::size_t> stored_planes(int symmetry, std::size_t planes) {
  const auto only_if_divisible_by = [planes](std::size_t divisor, std::size_t stored) {
    return planes % divisor == 0 ? std::optional(stored) : std::nullopt;
  };
  switch (symmetry) {
    case 1:
      return 1;
    case 2:
      return only_if_divisible_by(2, planes / 2 + 1);
    case 3:
      return only_if_divisible_by(4, planes / 2 + 1);
    case 4:
      return only_if_divisible_by(4, planes / 4 + 1);
    default:
      return planes;
  }
}

Result<EulumdatLayout> layout_of(const Source& source, const EulumdatHeader& header, const EulumdatNumbers& numbers,
                                 Problems& warnings) {
  return LayoutFinder(source, header, numbers, warnings).find();
}

}  // namespace evenlit
