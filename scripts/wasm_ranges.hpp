#pragma once

// What evenlit uses of the standard library that libc++ lacks before release 15, which Debian 12's emscripten has: the
// range algorithms, for whole ranges, and `bit_cast`. `scripts/wasm` includes this before every file.

#include <algorithm>
#include <functional>
#include <iterator>

#if defined(_LIBCPP_VERSION) && _LIBCPP_VERSION < 15000

namespace std {

template <class To, class From>
constexpr To bit_cast(const From& from) noexcept {
  return __builtin_bit_cast(To, from);
}

}  // namespace std

namespace std::ranges {

/// Compares what two items are ordered by.
template <class Less, class By>
auto by(Less& less, By& by) {
  return [&](auto&& a, auto&& b) { return std::invoke(less, std::invoke(by, a), std::invoke(by, b)); };
}

template <class Range, class Value, class Of = std::identity>
auto find(Range&& range, const Value& value, Of of = {}) {
  return std::find_if(std::begin(range), std::end(range), [&](auto&& item) { return std::invoke(of, item) == value; });
}

#define EVENLIT_OF_RANGE(algorithm)                                     \
  template <class Range, class... More>                                 \
  decltype(auto) algorithm(Range&& range, const More&... more) {        \
    return std::algorithm(std::begin(range), std::end(range), more...); \
  }
EVENLIT_OF_RANGE(all_of)
EVENLIT_OF_RANGE(any_of)
EVENLIT_OF_RANGE(none_of)
EVENLIT_OF_RANGE(for_each)
EVENLIT_OF_RANGE(find_if)
EVENLIT_OF_RANGE(copy)
EVENLIT_OF_RANGE(copy_if)
EVENLIT_OF_RANGE(count)
EVENLIT_OF_RANGE(count_if)
EVENLIT_OF_RANGE(fill)
EVENLIT_OF_RANGE(replace)
EVENLIT_OF_RANGE(replace_if)
EVENLIT_OF_RANGE(reverse)
EVENLIT_OF_RANGE(transform)
EVENLIT_OF_RANGE(is_sorted)
EVENLIT_OF_RANGE(is_sorted_until)
EVENLIT_OF_RANGE(lower_bound)
EVENLIT_OF_RANGE(binary_search)
#undef EVENLIT_OF_RANGE

#define EVENLIT_OF_ORDERED_RANGE(algorithm)                                  \
  template <class Range, class Less = std::less<>, class By = std::identity> \
  auto algorithm(Range&& range, Less less = {}, By of = {}) {                \
    return std::algorithm(std::begin(range), std::end(range), by(less, of)); \
  }
EVENLIT_OF_ORDERED_RANGE(sort)
EVENLIT_OF_ORDERED_RANGE(stable_sort)
EVENLIT_OF_ORDERED_RANGE(min_element)
EVENLIT_OF_ORDERED_RANGE(max_element)
#undef EVENLIT_OF_ORDERED_RANGE

template <class Range, class Less = std::less<>, class By = std::identity>
auto max(Range&& range, Less less = {}, By of = {}) {
  return *std::max_element(std::begin(range), std::end(range), by(less, of));
}

template <class One, class Other, class Same = std::equal_to<>>
bool equal(const One& one, const Other& other, Same same = {}) {
  return std::equal(std::begin(one), std::end(one), std::begin(other), std::end(other), same);
}

template <class Range, class Value, class Less = std::less<>, class By = std::identity>
auto upper_bound(Range&& range, const Value& value, Less less = {}, By of = {}) {
  return std::upper_bound(std::begin(range), std::end(range), value, [&](const Value& before, auto&& item) {
    return std::invoke(less, before, std::invoke(of, item));
  });
}

template <class Range, class Place>
void nth_element(Range&& range, Place place) {
  std::nth_element(std::begin(range), place, std::end(range));
}

}  // namespace std::ranges

#endif
