#pragma once

#include <stdexcept>
#include <string>

#include "evenlit/photometry/lm63.hpp"

namespace evenlit::testing {

/// An LM-63 file in parts, so that a test changes one of them.
struct Sample {
  std::string version = "IESNA:LM-63-2002\n";
  std::string keywords = "[TEST] 1\n[TESTLAB] none\n[ISSUEDATE] today\n[MANUFAC] none\n";
  std::string tilt = "TILT=NONE\n";
  std::string lamps = "1 -1 1";
  std::string counts = "3 1";
  std::string type_and_units = "1 2";
  std::string opening = "0 0 0";
  std::string factors = "1 1 10";
  std::string vertical = "0 45 90";
  std::string horizontal = "0";
  std::string candela = "1000 700 0";
  std::string rest = "";

  std::string text() const {
    return version + keywords + tilt + lamps + ' ' + counts + ' ' + type_and_units + ' ' + opening + '\n' + factors +
           '\n' + vertical + '\n' + horizontal + '\n' + candela + '\n' + rest;
  }
};

/// The sample with some of its parts changed, as a file.
template <class Change>
std::string with(Change change) {
  Sample sample;
  change(sample);
  return sample.text();
}

/// The warnings or, after `refused:`, the errors that a file gives, as a person sees them.
inline std::string messages_of(const std::string& bytes) {
  const auto read = read_lm63(bytes, "can.ies");
  return read ? text_of(read->warnings) : "refused:\n" + text_of(read.error());
}

inline PhotometricFile file_of(const std::string& bytes) {
  const auto read = read_lm63(bytes, "can.ies");
  return read ? read->value : throw std::runtime_error(text_of(read.error()));
}

}  // namespace evenlit::testing
