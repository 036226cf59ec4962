#include "eulumdat_planes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

bool is_near(double deg, double other_deg) { return std::abs(deg - other_deg) <= 0.05; }

/// The range of C angles that a table of each symmetry spans.
struct Span {
  double deg;        ///< from its first to its last plane
  double first_deg;  ///< where it begins, or a multiple of `deg` farther
  std::string_view text;
};

Span span_of(int symmetry) {
  switch (symmetry) {
    case 2:
      return {180, 0, "0 to 180"};
    case 3:
      return {180, 90, "270 to 90"};
    default:
      return {90, 0, "0 to 90"};
  }
}

class PlaneReader {
 public:
  PlaneReader(const Source& source, const EulumdatHeader& header, const EulumdatLayout& layout,
              const EulumdatNumbers& numbers, Problems& warnings)
      : source_(source), header_(header), layout_(layout), numbers_(numbers), warnings_(warnings) {}

  Result<TablePlanes> read() {
    if (const auto list = read_list(); !list) return tl::unexpected(list.error());
    if (header_.symmetry == 1 && !layout_.has_all_planes) return TablePlanes{1, {0}};
    drop_closing_angle();
    TablePlanes planes{symmetry(), stored()};
    snap_ends(planes.deg);
    const auto covered = planes.symmetry == 0 ? check_circle(planes.deg) : check_span(planes);
    if (!covered) return tl::unexpected(covered.error());
    return planes;
  }

 private:
  void warn(std::size_t i, std::string what, std::string hint = {}) {
    warnings_.push_back({numbers_.place(i), std::move(what), std::move(hint)});
  }

  Result<void> read_list() {
    for (std::size_t i = 0; i < layout_.listed; ++i) {
      const double deg = numbers_[i];
      if (deg < 0 || deg > 360) {
        return failure(numbers_.place(i), fmt::format("C angle {} is outside 0 to 360", shortest_text(deg)));
      }
      list_.push_back(deg);
    }
    begins_at_270_ = header_.symmetry == 3 && is_near(list_.front(), 270);
    if (begins_at_270_) {
      warn(0, "C angles begin at 270; the planes are taken in the order of the list", "begin the list at 0");
      for (double& deg : list_) deg -= deg >= numbers_[0] ? 360 : 0;
    }
    for (std::size_t i = 1; i < list_.size(); ++i) {
      if (list_[i] > list_[i - 1]) continue;
      return failure(numbers_.place(i),
                     fmt::format("C angles are not ascending: {} comes after {}", shortest_text(numbers_[i]),
                                 shortest_text(numbers_[i - 1])),
                     "a number may be missing or too many before this one");
    }
    check_steps();
    return {};
  }

  void check_steps() {
    if (header_.plane_step_deg == 0) return;
    for (std::size_t i = 1; i < list_.size(); ++i) {
      if (is_near(list_[i] - list_[i - 1], header_.plane_step_deg)) continue;
      warn(i, fmt::format("distance between C planes {} does not agree with the C angles, which are used",
                          shortest_text(header_.plane_step_deg)));
      return;
    }
  }

  void drop_closing_angle() {
    const bool is_closed = list_.size() > 1 && is_near(list_.front(), 0) && is_near(list_.back(), 360);
    if (!is_closed) return;
    list_.pop_back();
    warn(list_.size(), "C angles end at 360, which is the first plane again; the first is used",
         "end the list before 360");
    if (layout_.planes == layout_.listed) check_closing_plane();
  }

  void check_closing_plane() {
    const auto value = [&](std::size_t plane, std::size_t i) {
      return numbers_[layout_.first_intensity() + plane * layout_.verticals + i];
    };
    double difference = 0;
    double peak = 0;
    for (std::size_t i = 0; i < layout_.verticals; ++i) {
      difference = std::max(difference, std::abs(value(0, i) - value(layout_.planes - 1, i)));
    }
    for (std::size_t i = 0; i < layout_.intensities(); ++i) peak = std::max(peak, value(0, i));
    if (difference <= 0.01 * peak) return;
    warn(layout_.first_intensity() + (layout_.planes - 1) * layout_.verticals,
         fmt::format("intensities at C 0 and C 360 differ by up to {} % of the peak; those at C 0 are used",
                     fixed_text(100 * difference / peak, 1)));
  }

  /// Where every plane of the list is stored in spite of a symmetry, the list tells whether it is the full circle.
  int symmetry() {
    if (!layout_.has_all_planes) return header_.symmetry;
    if (header_.symmetry != 1 && !is_circle(list_)) {
      warnings_.push_back({source_.place(header_.line(l_planes)),
                           "number of C planes counts the stored planes instead of those of the full circle", ""});
      return header_.symmetry;
    }
    return 0;
  }

  /// Angles of the table's columns.
  std::vector<double> stored() const {
    const bool in_list_order = layout_.has_all_planes || begins_at_270_ || header_.symmetry != 3;
    if (in_list_order) return {list_.begin(), list_.begin() + std::ssize(list_) - surplus()};
    // Indicator 3: from C 270 over 360 to C 90.
    std::vector<double> deg;
    const std::size_t quarter = (layout_.planes - 1) / 2;
    for (std::size_t i = list_.size() - quarter; i < list_.size(); ++i) deg.push_back(list_[i] - 360);
    deg.insert(deg.end(), list_.begin(), list_.begin() + static_cast<std::ptrdiff_t>(quarter + 1));
    return deg;
  }

  /// How many angles of the list are not those of stored planes.
  std::ptrdiff_t surplus() const {
    return std::max(std::ptrdiff_t{0}, std::ssize(list_) - static_cast<std::ptrdiff_t>(layout_.planes));
  }

  /// Whether the planes go around: no gap after the last that is much wider than those between the others.
  static bool is_circle(const std::vector<double>& deg) {
    double widest = 0;
    for (std::size_t i = 1; i < deg.size(); ++i) widest = std::max(widest, deg[i] - deg[i - 1]);
    return deg.size() == 1 || 360 - (deg.back() - deg.front()) <= 1.5 * widest;
  }

  Result<void> check_circle(const std::vector<double>& deg) {
    if (!is_circle(deg)) {
      return failure(
          numbers_.place(deg.size() - 1),
          fmt::format("no planes between C {} and C {}", shortest_text(deg.back()), shortest_text(deg.front() + 360)),
          "where the planes are to be mirrored, write symmetry indicator 2, 3 or 4");
    }
    if (deg.front() != 0 && deg.size() > 1) {
      warn(0, fmt::format("C angles begin at {}; at C 0 the intensities are interpolated", shortest_text(deg.front())));
    }
    return {};
  }

  Result<void> check_span(const TablePlanes& planes) {
    const Span span = span_of(planes.symmetry);
    const double first = planes.deg.front();
    const double last = planes.deg.back();
    if (!is_near(last - first, span.deg) || !is_near(std::remainder(first - span.first_deg, span.deg), 0)) {
      const auto from_0 = [](double deg) { return shortest_text(deg < 0 ? deg + 360 : deg); };
      return failure(numbers_.place(0),
                     fmt::format("stored planes run from C {} to C {}, symmetry indicator {} needs {}", from_0(first),
                                 from_0(last), planes.symmetry, span.text),
                     "check the C angles, their number, and the symmetry indicator");
    }
    const double usual = planes.symmetry == 3 ? -90 : 0;
    if (first != usual) {
      warn(0, fmt::format("stored planes run from C {} to C {}, and are mirrored into the rest", shortest_text(first),
                          shortest_text(last)));
    }
    return {};
  }

  const Source& source_;
  const EulumdatHeader& header_;
  const EulumdatLayout& layout_;
  const EulumdatNumbers& numbers_;
  Problems& warnings_;
  std::vector<double> list_;
  bool begins_at_270_ = false;
};

}  // namespace

Result<TablePlanes> table_planes(const Source& source, const EulumdatHeader& header, const EulumdatLayout& layout,
                                 const EulumdatNumbers& numbers, Problems& warnings) {
  return PlaneReader(source, header, layout, numbers, warnings).read();
}

Result<CPlanes> full_circle(TablePlanes planes, Eigen::ArrayXXd candela, const EulumdatNumbers& numbers) {
  if (planes.symmetry == 0 && planes.deg.size() > 1) {
    planes.deg.push_back(planes.deg.front() + 360);
    candela.conservativeResize(Eigen::NoChange, candela.cols() + 1);
    candela.col(candela.cols() - 1) = candela.col(0);
  }
  const auto list = in_file_order("C", planes.deg, [&numbers](Eigen::Index) { return numbers.place(0); });
  Problems said_by_table_planes;
  return full_circle(list, candela, true, said_by_table_planes);
}

}  // namespace evenlit
