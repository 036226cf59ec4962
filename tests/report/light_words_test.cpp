#include "evenlit/report/light_words.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "evenlit/base/light_units.hpp"

using namespace evenlit;

namespace {

/// The words that a rising quantity gets, each once where it follows itself.
std::vector<std::string> words_along(double from, double to, const std::function<std::string(double)>& words) {
  constexpr int k_steps = 4000;
  std::vector<std::string> along;
  for (int i = 0; i <= k_steps; ++i) {
    const std::string word = words(from * std::pow(to / from, static_cast<double>(i) / k_steps));
    if (along.empty() || along.back() != word) along.push_back(word);
  }
  return along;
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("words for light never say less for more of it", "[report][property]") {
  // Each word once and in this order is what monotone means; the figures run far beyond both ends.
  CHECK(words_along(1e-3, 1e6, [](double lx) { return std::string(good_for(lx)); }) ==
        Words{"dark", "enough to find the way", "enough to relax and talk", "enough to eat, play and tidy up",
              "comfortable for reading", "bright enough to read small print",
              "bright enough for fine work such as sewing"});
  CHECK(words_along(1e-3, 1, [](double ratio) { return std::string(evenness_words(ratio)); }) ==
        Words{"bright pools, dark corners", "bright pools, darker between", "brighter and darker places", "fairly even",
              "very even"});
  CHECK(words_along(1e-3, 100, [](double ratio) { return std::string(share_words(ratio)); }) ==
        Words{"hardly any of", "a tenth of", "a fifth of", "a quarter of", "a third of", "half of", "two thirds of",
              "three quarters of", "about as much as", "one and a half times", "twice", "three times", "four times",
              "five times", "many times"});
  CHECK(words_along(1, 60, [](double rating) { return std::string(glare_words(rating)); }) ==
        Words{"hardly noticed", "acceptable", "disturbs", "hard to bear"});
  CHECK(words_along(1000, 20'000, [](double kelvin) { return std::string(tone_words(kelvin)); }) ==
        Words{"very warm, like candlelight", "warm", "neutral white", "cool"});
  CHECK(words_along(0.01, 0.99, [](double reflectance) { return std::string(finish_words(reflectance)); }) ==
        Words{"dark", "medium", "light", "very light"});
}

TEST_CASE("thresholds of light are those of the recommendations", "[report][published]") {
  // IES Lighting Handbook, 9th ed., categories A to F, and EN 1838 (both from memory).
  CHECK(good_for(0) == "dark");
  CHECK(good_for(0.99) == "dark");
  CHECK(good_for(1) == "enough to find the way");
  CHECK(good_for(30) == "enough to relax and talk");
  CHECK(good_for(100) == "enough to eat, play and tidy up");
  CHECK(good_for(300) == "comfortable for reading");
  CHECK(good_for(500) == "bright enough to read small print");
  CHECK(good_for(1000) == "bright enough for fine work such as sewing");
  // EN 12464-1 (from memory).
  CHECK(evenness_words(0.6) == "very even");
  CHECK(evenness_words(0.4) == "fairly even");
  CHECK(tone_words(3300) == "neutral white");
}

TEST_CASE("a word goes by the figure that stands beside it", "[report][property]") {
  for (double lx = 1; lx < 3000; lx *= 1.003) {
    const std::string figure = plain_illuminance(lx, Units::metric);
    INFO(figure);
    CHECK(good_for(lx) == good_for(std::stod(figure)));
  }
}

TEST_CASE("light in whole figures of two digits, in both units", "[report][exact]") {
  CHECK(plain_illuminance(0, Units::metric) == "0 lx (0 fc)");
  CHECK(plain_illuminance(5.4, Units::imperial) == "under 1 fc (5 lx)");
  CHECK(plain_illuminance(0.2, Units::metric) == "under 1 lx (under 1 fc)");
  CHECK(plain_illuminance(9.7, Units::metric) == "10 lx (under 1 fc)");
  CHECK(plain_illuminance(30 * k_lux_per_footcandle, Units::imperial) == "30 fc (320 lx)");
  CHECK(plain_illuminance(99.6, Units::metric) == "100 lx (9 fc)");
  CHECK(plain_illuminance(1234, Units::metric) == "1200 lx (110 fc)");
}

TEST_CASE("the light of one place against that of another", "[report][exact]") {
  CHECK(share_words(0) == "hardly any of");
  CHECK(share_words(0.27) == "a quarter of");
  CHECK(share_words(0.5) == "half of");
  CHECK(share_words(1) == "about as much as");
  CHECK(share_words(1.8) == "twice");
  CHECK(share_words(INFINITY) == "many times");
}

TEST_CASE("power against a bulb that everybody knew, cost in round money", "[report][exact]") {
  CHECK(plain_power(95.3) == "95 W");
  CHECK(plain_power(0.4) == "under 1 W");
  CHECK(power_words(0) == "less than half of one old 60 W bulb");
  CHECK(power_words(30) == "about half of one old 60 W bulb");
  CHECK(power_words(60) == "about as much as one old 60 W bulb");
  CHECK(power_words(88) == "about as much as one and a half of the old 60 W bulbs");
  CHECK(power_words(300) == "about as much as five of the old 60 W bulbs");
  CHECK(power_words(720) == "about as much as 12 of the old 60 W bulbs");
  CHECK(yearly_cost_words(0.4, "$") == "less than $1 a year");
  CHECK(yearly_cost_words(12.4, "EUR ") == "about EUR 12 a year");
  CHECK(yearly_cost_words(123.4, "$") == "about $120 a year");
}
