#pragma once

#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

#include "evenlit/photometry/eulumdat.hpp"

namespace evenlit::testing {

/// An EULUMDAT file line by line, so that a test changes one of them. As it stands: a disc of 0.2 m that is a Lambert
/// emitter of 1000 cd straight down, absolute photometry. 318.310 = 1000 / pi.
struct EulumdatSample {
  std::vector<std::string> header = {"Sample", "1", "1",  "1",   "0",          "7",   "15",             // 1 to 7
                                     "-",      "",  "L1", "",    "2020-01-01",                          // 8 to 12
                                     "200",    "0", "50", "200", "0",                                   // 13 to 17
                                     "0",      "0", "0",  "0",   "100",        "100", "1",  "0", "1"};  // 18 to 26
  std::vector<std::string> lamps = {"-1", "LED", "3141.6", "4000", "80", "10"};
  std::vector<std::string> direct_ratios = std::vector<std::string>(10, "0");
  std::vector<std::string> c_deg = {"0"};
  std::vector<std::string> gamma_deg = {"0", "15", "30", "45", "60", "75", "90"};
  std::vector<std::string> intensities = {"318.310", "307.464", "275.665", "225.079", "159.155", "82.385", "0"};
  std::string rest;

  // Inlined, the strings above make g++ 12 warn of impossible lengths wherever a test assigns to one.
  [[gnu::noinline]] EulumdatSample() {}

  /// @param number of the line in the file, 1 to 26
  std::string& line(int number) { return header[static_cast<std::size_t>(number - 1)]; }

  std::string text() const {
    std::string text;
    for (const auto* part : {&header, &lamps, &direct_ratios, &c_deg, &gamma_deg, &intensities}) {
      for (const std::string& line : *part) text += line + "\r\n";
    }
    return text + rest;
  }
};

/// The sample with one of its parts changed, as a file.
template <class Change>
std::string eulumdat_with(Change change) {
  EulumdatSample sample;
  change(sample);
  return sample.text();
}

inline std::string decimal_text(double value) {
  std::string text = std::to_string(value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

/// A file with a lamp of 1000 lm and planes at the given angles of the full circle. Of these the file stores what the
/// symmetry leaves: C 0...180 for 2, 270...90 for 3, 0...90 for 4. The intensity is 300 at the vertical angle 0, a
/// value of the plane's own at 45, and 0 at 90: with 212 there, chords of a cosine, 89 % of the lamp's flux.
inline EulumdatSample eulumdat_planes(int symmetry, const std::vector<double>& c_deg,
                                      const std::function<double(double)>& at_45) {
  EulumdatSample sample;
  sample.line(2) = std::to_string(symmetry == 1 ? 1 : 3);
  sample.line(3) = std::to_string(symmetry);
  sample.line(4) = std::to_string(c_deg.size());
  sample.lamps = {"1", "lamp", "1000", "3000", "80", "10"};
  sample.gamma_deg = {"0", "45", "90"};
  sample.line(23) = std::to_string(89);
  sample.line(6) = std::to_string(sample.gamma_deg.size());
  sample.line(7) = sample.gamma_deg[1];
  sample.c_deg.clear();
  sample.intensities.clear();
  const auto add = [&](double c) {
    for (const auto& value : {std::string("300"), decimal_text(at_45(c)), std::string("0")}) {
      sample.intensities.push_back(value);
    }
  };
  for (const double c : c_deg) sample.c_deg.push_back(decimal_text(c));
  if (symmetry == 3) {
    for (const double c : c_deg)
      if (c >= 270) add(c);
  }
  const double last = symmetry == 0 ? 360 : symmetry == 1 ? 0 : symmetry == 2 ? 180 : 90;
  for (const double c : c_deg)
    if (c <= last) add(c);
  return sample;
}

/// A full circle of planes, from C 0 on.
inline std::vector<double> every(int step_deg) {
  std::vector<double> deg;
  for (int c = 0; c < 360; c += step_deg) deg.push_back(c);
  return deg;
}

/// A file of such planes that are all the same, changed.
template <class Change>
std::string planes_with(int symmetry, int step_deg, Change change) {
  auto sample = eulumdat_planes(symmetry, every(step_deg), [](double) { return 212; });
  change(sample);
  return sample.text();
}

/// The warnings or, after `refused:`, the errors that a file gives, as a person sees them.
inline std::string eulumdat_messages(const std::string& bytes, int lamp_set = 1) {
  const auto read = read_eulumdat(bytes, "can.ldt", lamp_set);
  return read ? text_of(read->warnings) : "refused:\n" + text_of(read.error());
}

inline PhotometricFile eulumdat_file(const std::string& bytes, int lamp_set = 1) {
  const auto read = read_eulumdat(bytes, "can.ldt", lamp_set);
  return read ? read->value : throw std::runtime_error(text_of(read.error()));
}

}  // namespace evenlit::testing
