#include "evenlit/moods/dimming.hpp"
