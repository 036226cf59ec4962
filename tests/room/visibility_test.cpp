#include "evenlit/room/visibility.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <numbers>
#include <random>

using namespace evenlit;
using Eigen::Vector3d;

namespace {

const Polygon k_plan{{0, 0}, {6, 0}, {6, 4}, {0, 4}};
const Polygon k_l_shape{{0, 0}, {6, 0}, {6, 2}, {2, 2}, {2, 6}, {0, 6}};

Box screen(double x, double height) {
  return {.name = "screen", .centre_m = {x, 2}, .half_m = {0.05, 2}, .bottom_m = 0, .top_m = height, .reflectance = 0};
}

/// A square facing along x.
struct Square {
  std::array<Vector3d, 4> corners;

  Square(double x, double y, double z, double side) {
    corners = {Vector3d(x, y, z), {x, y + side, z}, {x, y + side, z + side}, {x, y, z + side}};
  }
  void add_to(Figures& figures, const Visibility& visibility) const {
    const Vector3d centre = (corners[0] + corners[2]) / 2;
    visibility.add(figures, centre, (corners[0] - centre).norm(), corners);
  }
};

View view_between(const Visibility& visibility, const Square& from, const Square& to) {
  Figures figures;
  from.add_to(figures, visibility);
  to.add_to(figures, visibility);
  View view;
  visibility.look(figures, 0, figures, 1, 2, view);
  return view;
}

/// A room of an odd plan with boxes standing, lying and hanging in it, small ones where they are many.
Visibility cluttered(std::mt19937& random, int count = 8) {
  std::uniform_real_distribution<double> unit(0, 1);
  std::vector<Box> boxes;
  const double size = std::sqrt(8.0 / count);
  for (int i = 0; i < count; ++i) {
    const double turn = unit(random) * std::numbers::pi;
    const double bottom = i % 3 == 0 ? unit(random) : 0;
    boxes.push_back({.name = "",
                     .centre_m = {0.5 + unit(random) * 5, 0.5 + unit(random) * 5},
                     .half_m = {size * (0.05 + 0.4 * unit(random)), size * (0.05 + 0.4 * unit(random))},
                     .along = {std::cos(turn), std::sin(turn)},
                     .bottom_m = bottom,
                     .top_m = bottom + 0.02 + size * unit(random),
                     .reflectance = 0.5});
  }
  return {k_l_shape, boxes};
}

}  // namespace

TEST_CASE("without boxes in a convex room nothing is ever hidden", "[room][exact]") {
  CHECK(Visibility(k_plan, {}).is_always_clear());
  CHECK_FALSE(Visibility(k_plan, {screen(3, 1)}).is_always_clear());
  CHECK(Visibility({{0, 0}, {4, 0}, {5, 2}, {4, 4}, {0, 4}}, {}).is_always_clear());
}

TEST_CASE("a screen hides what is low behind it", "[room][exact]") {
  const Visibility room(k_plan, {screen(3, 1.5)});
  CHECK(room.is_clear({1, 2, 1}, {2, 2, 1}));
  CHECK_FALSE(room.is_clear({1, 2, 1}, {5, 2, 1}));
  CHECK(room.is_clear({1, 2, 2}, {5, 2, 1.6}));
  CHECK_FALSE(room.is_clear({1, 2, 2.4}, {3.5, 2, 0.5}));
  CHECK(room.is_clear({3.05, 1, 1}, {5, 2, 1}));  // from the screen's own face
  CHECK(room.is_clear({3, 1, 1.5}, {5, 2, 2}));
}

TEST_CASE("the inner corner of an L hides what lies behind it", "[room][exact]") {
  const Visibility l(k_l_shape, {});
  CHECK_FALSE(l.is_always_clear());
  CHECK(l.is_clear({1, 1, 1}, {5, 1, 1}));
  CHECK(l.is_clear({1, 5, 1}, {1, 1, 2}));
  CHECK_FALSE(l.is_clear({1, 5, 1}, {5, 1, 2}));
  CHECK(l.is_clear({0.5, 3, 0}, {3, 0.5, 2}));
  CHECK_FALSE(l.is_clear({1.5, 3, 0}, {3, 1.5, 2}));
}

TEST_CASE("standing on a wall does not hide, whichever way one looks", "[room][exact]") {
  const Visibility l(k_l_shape, {});
  CHECK(l.is_clear({4, 2, 1}, {1, 1, 1}));         // from the wall into the room
  CHECK(l.is_clear({3, 2, 1}, {5, 2, 1}));         // along the wall
  CHECK(l.is_clear({4, 2 + 1e-8, 1}, {1, 1, 1}));  // rounded a little behind the wall
}

TEST_CASE("figures beside a box are clear, behind it hidden, at its edge mixed", "[room][exact]") {
  const Visibility room(k_plan, {screen(3, 1.5)});
  const Square here(1, 1, 0.5, 0.03);
  CHECK(view_between(room, here, Square(2, 1, 0.5, 0.03)).sights[0] == Sight::clear);
  CHECK(view_between(room, here, Square(5, 1, 0.5, 0.03)).sights[0] == Sight::hidden);
  CHECK(view_between(room, here, Square(5, 1, 2.8, 0.02)).sights[0] == Sight::clear);
  const View at_edge = view_between(room, Square(1, 1, 1.3, 0.4), Square(5, 1, 1.3, 0.4));
  CHECK(at_edge.sights[0] == Sight::mixed);
  CHECK(at_edge.obstacles == std::vector<int>{0});
}

TEST_CASE("a figure on a face of a box is not hidden by it from what is in front of that face", "[room][exact]") {
  const Visibility room(k_plan, {screen(3, 1.5)});
  CHECK(view_between(room, Square(3.05, 1, 0.5, 0.3), Square(5, 1, 0.1, 0.3)).sights[0] == Sight::clear);
}

TEST_CASE("lines tested together agree with lines tested one by one", "[room][property]") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> unit(0, 1);
  const auto point = [&] {
    const Vector3d in_south = {6 * unit(random), 2 * unit(random), 2.5 * unit(random)};
    const Vector3d in_west = {2 * unit(random), 6 * unit(random), 2.5 * unit(random)};
    return unit(random) < 0.5 ? in_south : in_west;
  };
  int differ = 0;
  int hidden = 0;
  constexpr int k_rooms = 100;
  constexpr int k_lines = 200;
  for (int room = 0; room < k_rooms; ++room) {
    const Visibility visibility = cluttered(random);
    const Vector3d from = point();
    std::vector<float> x, y, z;
    std::vector<float> clear(k_lines, 1);
    std::vector<int> expected;
    for (int i = 0; i < k_lines; ++i) {
      const Vector3d to = point();
      x.push_back(static_cast<float>(to.x()));
      y.push_back(static_cast<float>(to.y()));
      z.push_back(static_cast<float>(to.z()));
      expected.push_back(visibility.is_clear(from, to) ? 1 : 0);
    }
    for (int obstacle = 0; obstacle < visibility.obstacle_count(); ++obstacle) {
      visibility.cross(obstacle, from.cast<float>(), {x.data(), y.data(), z.data()}, k_lines, clear.data());
    }
    for (int i = 0; i < k_lines; ++i) {
      differ += static_cast<int>(clear[i]) != expected[i];
      hidden += 1 - expected[i];
    }
  }
  CHECK(hidden > k_rooms * k_lines / 5);
  CHECK(differ <= 2);  // single precision decides otherwise only where a line grazes an edge within a micrometre
}

TEST_CASE("lines along the axes of a box are hidden by it", "[room][exact]") {
  const Visibility room(k_plan, {screen(3, 1.5)});
  const auto crosses = [&](const Vector3d& from, const Eigen::Vector3f& to) {
    float clear = 1;
    room.cross(0, from.cast<float>(), {&to.x(), &to.y(), &to.z()}, 1, &clear);
    return clear == 0;
  };
  CHECK(crosses({1, 2, 1}, {5, 2, 1}));
  CHECK(crosses({3, 0.5, 1}, {3, 3.5, 1}));
  CHECK(crosses({3, 2, 2}, {3, 2, 1}));
  CHECK(crosses({3, 2, 1}, {3, 2, 1}));
  CHECK_FALSE(crosses({1, 2, 2}, {5, 2, 2}));
  CHECK_FALSE(crosses({2, 0.5, 1}, {2, 3.5, 1}));
  CHECK_FALSE(crosses({3, 2, 2}, {3, 2, 2.4}));
}

TEST_CASE("a look between points never calls clear what is hidden", "[room][property]") {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> unit(0, 1);
  int hidden = 0;
  for (int room = 0; room < 20; ++room) {
    const Visibility visibility = cluttered(random);
    std::vector<float> x, y, z;
    for (int i = 0; i < 60; ++i) {
      x.push_back(static_cast<float>(6 * unit(random)));
      y.push_back(static_cast<float>(x.back() > 2 ? 2 * unit(random) : 6 * unit(random)));
      z.push_back(static_cast<float>(2.5 * unit(random)));
    }
    const Figures points = visibility.figures_of({x.data(), y.data(), z.data()}, 60);
    View view;
    for (int i = 0; i < 60; ++i) {
      visibility.look(points, i, points, 0, 60, view);
      for (int j = 0; j < 60; ++j) {
        if (i == j || visibility.is_clear({x[i], y[i], z[i]}, {x[j], y[j], z[j]})) continue;
        ++hidden;
        REQUIRE(view.sights[j] != Sight::clear);
      }
    }
  }
  CHECK(hidden > 1000);
}

TEST_CASE("what a look calls clear or hidden is so for every pair of points", "[room][property]") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> unit(0, 1);
  int clear = 0;
  int hidden = 0;
  for (int room = 0; room < 20; ++room) {
    const Visibility visibility = cluttered(random);
    std::vector<Square> squares;
    Figures figures;
    for (int i = 0; i < 40; ++i) {
      const double side = 0.05 + 0.3 * unit(random);
      squares.emplace_back(2 * unit(random), 5.5 * unit(random), 2 * unit(random), side);
      squares.back().add_to(figures, visibility);
    }
    const auto on = [&](const Square& square) {
      const double side = square.corners[1].y() - square.corners[0].y();
      return Vector3d(square.corners[0] + side * Vector3d(0, unit(random), unit(random)));
    };
    View view;
    for (int i = 0; i < figures.size(); ++i) {
      visibility.look(figures, i, figures, 0, figures.size(), view);
      for (int j = 0; j < figures.size(); ++j) {
        if (view.sights[j] == Sight::mixed || i == j) continue;
        const bool is_clear = view.sights[j] == Sight::clear;
        (is_clear ? clear : hidden) += 1;
        for (int k = 0; k < 3; ++k) REQUIRE(visibility.is_clear(on(squares[i]), on(squares[j])) == is_clear);
      }
    }
  }
  CHECK(clear > 1000);
  CHECK(hidden > 100);
}

// To the bit: what a look leaves out must have been out of the way of every line.
TEST_CASE("past the obstacles that a look names, as many lines are clear as past all", "[room][property]") {
  constexpr int k_points = 150;
  std::mt19937 random(23);
  std::uniform_real_distribution<float> unit(0, 1);
  View view;
  int named = 0;
  for (const int boxes : {3, 300, 8, 64, 65}) {
    const Visibility visibility = cluttered(random, boxes);
    std::vector<float> x, y, z;
    for (int i = 0; i < k_points; ++i) {
      x.push_back(6 * unit(random));
      y.push_back(x.back() > 2 ? 2 * unit(random) : 6 * unit(random));
      z.push_back(2.5F * unit(random));
    }
    const Points points{x.data(), y.data(), z.data()};
    const Figures figures = visibility.figures_of(points, k_points);
    for (int i = 0; i < k_points; ++i) {
      const int begin = i % 7;
      const int count = k_points - begin - i % 5;
      const Points run{x.data() + begin, y.data() + begin, z.data() + begin};
      const Eigen::Vector3f from(x[i], y[i], z[i]);
      visibility.look(figures, i, figures, begin, begin + count, view);
      std::vector<float> clear(count);
      for (int j = 0; j < count; ++j) clear[j] = view.sights[j] == Sight::hidden ? 0 : 1;
      for (const Passage& passage : passages(view, 1)) {
        visibility.cross(passage.obstacle, from,
                         {run.x_m + passage.begin, run.y_m + passage.begin, run.z_m + passage.begin},
                         passage.end - passage.begin, clear.data() + passage.begin);
      }
      std::vector<float> past_all(count, 1);
      for (int obstacle = 0; obstacle < visibility.obstacle_count(); ++obstacle) {
        visibility.cross(obstacle, from, run, count, past_all.data());
      }
      REQUIRE(clear == past_all);
      std::vector<float> of_each(count, 1);
      for (int j = 0; j < count; ++j) {
        visibility.cross_seen(view, j, from, {run.x_m + j, run.y_m + j, run.z_m + j}, 1, &of_each[j]);
      }
      REQUIRE(of_each == past_all);
      named += static_cast<int>(view.obstacles.size());
    }
  }
  CHECK(named > 1000);
}
