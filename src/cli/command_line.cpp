#include "command_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>

#include "evenlit/base/names.hpp"

namespace evenlit {
namespace {

struct Option {
  std::string name;   ///< with its dashes
  std::string value;  ///< what it takes, as the help calls it; empty for a switch
};

using Options = std::vector<Option>;

Options options_in_help(const cxxopts::Options& options) {
  Options all;
  for (const auto& shown : options.group_help("").options) {
    all.push_back({"--" + shown.l.front(), shown.is_boolean ? "" : shown.arg_help});
  }
  return all;
}

/// The part of an argument before `=`.
std::string_view name_in(std::string_view argument) { return argument.substr(0, argument.find('=')); }

Options::const_iterator find(const Options& known, std::string_view argument) {
  return std::ranges::find(known, name_in(argument), &Option::name);
}

Problem unknown(const Place& place, const Options& known, std::string_view name) {
  std::vector<std::string_view> words;
  for (const auto& option : known) words.emplace_back(std::string_view(option.name).substr(2));
  const std::string nearest = nearest_name(name.substr(std::min(name.find_first_not_of('-'), name.size())), words);
  return {place, "there is no option " + quoted(name),
          nearest.empty()
              ? place.file + " --help lists the options; write ./ before a file name that begins with a dash"
              : "did you mean --" + nearest + "?"};
}

Problems mistakes(const std::vector<std::string>& arguments, const Options& known, const Place& place) {
  Problems problems;
  std::set<std::string> seen;
  for (auto argument = arguments.begin(); argument != arguments.end() && *argument != "--"; ++argument) {
    if (argument->size() < 2 || argument->front() != '-') continue;
    const auto option = find(known, *argument);
    if (option == known.end()) {
      problems.push_back(unknown(place, known, name_in(*argument)));
      continue;
    }
    const auto& [name, value] = *option;
    if (!seen.insert(name).second) problems.push_back({place, name + " is given twice", "give it once"});
    const bool has_equals = argument->size() > name.size();
    if (value.empty()) {
      if (has_equals) problems.push_back({place, name + " takes no value", "write " + name});
      continue;
    }
    // The value stands after `=` or in the next argument, which then is no option itself.
    const auto next = argument + 1;
    const bool has_next = !has_equals && next != arguments.end() && *next != "--" && find(known, *next) == known.end();
    const bool is_empty = has_equals ? argument->size() == name.size() + 1 : !has_next || next->empty();
    if (is_empty) problems.push_back({place, name + " lacks its value", fmt::format("write {} {}", name, value)});
    if (has_next) argument = next;
  }
  return problems;
}

}  // namespace

Result<cxxopts::ParseResult> command_line(cxxopts::Options& options, const std::vector<std::string>& arguments) {
  Problems problems = mistakes(arguments, options_in_help(options), whole_file(options.program()));
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  std::vector<const char*> argv{options.program().c_str()};
  for (const auto& argument : arguments) argv.push_back(argument.c_str());
  return options.parse(static_cast<int>(argv.size()), argv.data());
}

}  // namespace evenlit
