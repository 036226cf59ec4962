#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <random>
#include <sstream>

#include "benches.hpp"
#include "evenlit/base/parallel.hpp"
#include "evenlit/photometry/intensity_lookup.hpp"
#include "evenlit/photometry/read_photometric_file.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "evenlit/photometry/write_photometric_file.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

constexpr int k_runs = 15;

/// A beam thrown to one side, every degree in both angles, no plane like another.
IntensityDistribution fine_table(double step_deg) {
  IntensityDistribution table;
  for (double gamma = 0; gamma <= 180; gamma += step_deg) table.gamma_deg.push_back(gamma);
  for (double c = 0; c <= 360; c += step_deg) table.c_deg.push_back(c);
  table.candela.resize(std::ssize(table.gamma_deg), std::ssize(table.c_deg));
  for (Eigen::Index j = 0; j < table.candela.cols(); ++j) {
    for (Eigen::Index i = 0; i < table.candela.rows(); ++i) {
      const double gamma = table.gamma_deg[i] * std::numbers::pi / 180;
      const double c = std::fmod(table.c_deg[j], 360) * std::numbers::pi / 180;
      const double toward = std::cos(gamma) * 0.9 + std::sin(gamma) * (0.4 * std::cos(c) + 0.17 * std::sin(c));
      table.candela(i, j) = 1000 * std::pow(std::max(0.0, toward), 3);
    }
  }
  return table;
}

/// An LM-63 file of 181 x 361 candelas with all digits that a double has.
std::string large_lm63(const IntensityDistribution& table) {
  std::string text =
      "IESNA:LM-63-2002\r\n[TEST] 1\r\n[TESTLAB] none\r\n[ISSUEDATE] none\r\n[MANUFAC] none\r\nTILT=NONE\r\n";
  text += fmt::format("1 -1 1 {} {} 1 2 0 0 0\r\n1 1 10\r\n", table.gamma_deg.size(), table.c_deg.size());
  for (const auto* angles : {&table.gamma_deg, &table.c_deg}) {
    for (const double deg : *angles) text += fmt::format("{} ", deg);
    text += "\r\n";
  }
  for (Eigen::Index j = 0; j < table.candela.cols(); ++j) {
    for (const double candela : table.candela.col(j)) text += fmt::format("{:.16e}      \r\n", candela);
  }
  return text;
}

/// The numbers of a text after a line, one after the other: what any reader has to do at least.
std::vector<double> numbers_after(const std::string& text, const std::string& line) {
  std::istringstream in(text.substr(text.find(line) + line.size()));
  std::vector<double> numbers;
  for (double number; in >> number;) numbers.push_back(number);
  return numbers;
}

bool reading_bench() {
  const IntensityDistribution table = fine_table(1);
  PhotometricFile file;
  file.distribution = table;
  constexpr const char* k_lamp = "ends\r\n";
  file.lamp_sets[0].rendering = "ends";
  const std::string lm63 = large_lm63(table);
  const std::string ldt = photometric_bytes(file, PhotometricFormat::eulumdat).value;
  std::vector<std::vector<std::string>> rows{
      {"file of 181 x 361 candelas", "MB", "bare numbers, ms", "ours, ms", "ratio", "spread"}};
  bool is_right = true;
  for (const auto& [name, text, last_text] :
       {std::tuple{"LM-63", &lm63, "TILT=NONE\r\n"}, {"EULUMDAT", &ldt, k_lamp}}) {
    Result<Noted<PhotometricFile>> read = failure({}, "");
    std::size_t numbers = 0;
    const auto timings = alternated(
        k_runs, {[&, text = text, last_text = last_text] { numbers = numbers_after(*text, last_text).size(); },
                 [&, text = text] { read = read_photometric_file(*text, "bench"); }});
    is_right = is_right && numbers >= 181 * 360 && read &&
               (read->value.distribution.candela - table.candela).abs().maxCoeff() < 0.01;
    rows.push_back({name, fmt::format("{:.1f}", 1e-6 * static_cast<double>(text->size())),
                    fmt::format("{:.1f}", 1e3 * timings[0].minimum_s),
                    fmt::format("{:.1f}", 1e3 * timings[1].minimum_s),
                    fmt::format("{:.1f} x", timings[0].minimum_s / timings[1].minimum_s),
                    fmt::format("{:.0f} %", 100 * timings[1].spread())});
  }
  print_table("Reading photometric files, one thread", rows);
  return is_right;
}

/// Directions over the whole sphere.
Directions random_directions(int count) {
  std::mt19937 random(1);
  std::normal_distribution<double> normal;
  Directions directions;
  directions.resize(count);
  for (int i = 0; i < count; ++i) {
    directions.set(i, Eigen::Vector3d(normal(random), normal(random), normal(random)).normalized());
  }
  return directions;
}

bool lookup_bench() {
  constexpr int k_count = 1 << 16;
  constexpr int k_batches = 16;  // shared out to the threads
  constexpr double k_promised_percent = 0.05;
  const Directions directions = random_directions(k_count);
  const std::vector<float> squarely(k_count, 1.0F);  // at 1 m the illuminance is the intensity
  const auto irregular =
      synthetic_beam({.lumens = 900, .beam_angle_deg = 57.29577951, .field_angle_deg = 93.1}).value();
  std::vector<std::vector<std::string>> rows{
      {"table", "plain, M/s", "ours, M/s", "ratio", "spread", "differ by", "may (of the peak)"}};
  bool all_agree = true;
  for (const auto& [name, table] : {std::pair{"one plane, steps halved where it bends",
                                              synthetic_beam({.lumens = 900, .beam_angle_deg = 60}).value()},
                                    {"one plane, uneven steps", irregular},
                                    {"25 planes of 73", fine_table(15)},
                                    {"361 planes of 181", fine_table(1)}}) {
    const IntensityLookup lookup(table);
    std::vector<float> plain(k_count);
    std::vector<std::vector<float>> ours(k_batches, std::vector<float>(k_count));
    const auto timings =
        alternated(k_runs, {[&, &table = table] {
                              parallel_for(k_batches, [&](int batch) {
                                for (int i = batch; i < k_count; i += k_batches) {
                                  const Eigen::Vector3d direction(directions.x[i], directions.y[i], directions.z[i]);
                                  plain[i] = static_cast<float>(intensity_toward(table, direction));
                                }
                              });
                            },
                            [&] {
                              parallel_for(k_batches, [&](int batch) {
                                lookup.illuminances(directions, squarely.data(), k_count, ours[batch].data());
                              });
                            }});
    double worst = 0;
    for (int i = 0; i < k_count; ++i) worst = std::max<double>(worst, std::abs(plain[i] - ours[0][i]));
    const double differ_percent = 100 * worst / table.candela.maxCoeff();
    const bool agrees = differ_percent <= k_promised_percent;
    all_agree = all_agree && agrees;
    const double plain_per_s = k_count / timings[0].minimum_s;
    const double ours_per_s = static_cast<double>(k_count) * k_batches / timings[1].minimum_s;
    rows.push_back({name, fmt::format("{:.1f}", 1e-6 * plain_per_s), fmt::format("{:.0f}", 1e-6 * ours_per_s),
                    fmt::format("{:.0f} x", ours_per_s / plain_per_s),
                    fmt::format("{:.0f} %", 100 * timings[1].spread()), fmt::format("{:.1e} %", differ_percent),
                    fmt::format("{} %{}", k_promised_percent, agrees ? "" : " FAILED")});
  }
  print_table("Intensities of directions, all threads, in millions a second", rows);
  return all_agree;
}

}  // namespace

bool photometry_bench() {
  const bool reads_right = reading_bench();
  return lookup_bench() && reads_right;
}

}  // namespace evenlit::bench
