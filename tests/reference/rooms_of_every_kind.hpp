#pragma once

#include <string>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit::reference {

/// A room and points in it that are worth a comparison: on the work plane, upright at eye height, on walls, ceiling and
/// furniture, and behind furniture.
struct SampleRoom {
  std::string name;
  Scene scene;
  std::vector<Receiver> receivers;
};

/// Invented rooms of every kind that a job can describe.
std::vector<SampleRoom> rooms_of_every_kind();

}  // namespace evenlit::reference
