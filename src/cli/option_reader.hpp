#pragma once

#include <cxxopts.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/result.hpp"

namespace evenlit {

struct OptionRange {
  double least = 0;
  double most = 0;
};

/// Turns the texts of a command's options into values and collects what is wrong with them. An option that is not
/// given, or is wrong, is empty.
class OptionReader {
 public:
  /// @param program name of the command in messages, like `evenlit light`
  OptionReader(std::string program, const cxxopts::ParseResult& line) : program_(std::move(program)), line_(line) {}

  [[nodiscard]] bool has(const std::string& option) const { return line_.count(option) > 0; }
  [[nodiscard]] std::optional<std::string> text(const std::string& option) const;

  std::optional<double> number(const std::string& option, const OptionRange& range);
  std::optional<int> whole_number(const std::string& option, const OptionRange& range);
  std::optional<double> length_m(const std::string& option, const OptionRange& range_m);
  /// Numbers and ranges with commas between, like `4,6` or `4-8,12`: ascending, each once. Empty where the option is
  /// wrong.
  ///
  /// @param usual taken where the option is not given
  std::vector<int> whole_numbers(const std::string& option, const std::string& usual, const OptionRange& range);
  /// Names with commas between, in the order written.
  [[nodiscard]] std::vector<std::string> names(const std::string& option) const;
  /// Above 0.
  std::optional<double> illuminance_lx(const std::string& option);

  /// The one name that the command takes besides its options.
  ///
  /// @param option  what the positional argument goes by
  /// @param kind    what it names, like `job file`
  /// @param example of a name
  std::filesystem::path single_name(const std::string& option, const std::string& kind, const std::string& example);

  /// One name or more that the command takes besides its options; one that is empty where there is none, which is a
  /// problem.
  ///
  /// @param option, kind, example as above
  std::vector<std::filesystem::path> all_names(const std::string& option, const std::string& kind,
                                               const std::string& example);

  /// Refuses an option that changes another one's file, where that is not asked for.
  void needs(const std::string& option, const std::string& needed, const std::string& hint);

  /// The same where any of several will do.
  void needs_any(const std::string& option, const std::vector<std::string>& needed, const std::string& hint);

  void problem(std::string what, std::string hint);
  [[nodiscard]] Problems take_problems() { return std::move(problems_); }

 private:
  std::string program_;
  const cxxopts::ParseResult& line_;
  Problems problems_;
};

/// The narrowest picture whose words can still be read.
inline constexpr int k_narrowest_px = 300;

/// The width of pictures: `--width`, in every command that draws.
void add_width_option(cxxopts::OptionAdder& add, const std::string& explanation);
int width_px(OptionReader& reader, int narrowest_px = k_narrowest_px);

}  // namespace evenlit
