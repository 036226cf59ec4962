#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>
#include <string_view>
#include <vector>

#include "commands.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/base/result.hpp"

namespace {

struct Command {
  std::string_view name;
  std::string_view purpose;
  int (*run)(const std::vector<std::string>& arguments);
};

constexpr std::array k_commands = {
    Command{"light", "the light on a room's work plane: table, map, grid", evenlit::light_command},
    Command{"change", "edits to a job file that keep all the rest of its text", evenlit::change_command},
    Command{"room", "the job as it stands: size, finishes, cans, what is where", evenlit::room_command},
    Command{"holes", "whether the holes clear joists, vents and fans, and where they would", evenlit::holes_command},
    Command{"compare", "usual layouts of more or fewer cans side by side", evenlit::compare_command},
    Command{"search", "the best layouts of all that fit, and the cheapest that will do", evenlit::search_command},
    Command{"setout", "where to mark and cut: a sheet for the crew, to scale", evenlit::setout_command},
    Command{"moods", "dimmer settings, light, power and comfort in each mood", evenlit::moods_command},
    Command{"wiring", "cables, boxes, what to buy, the work in order", evenlit::wiring_command},
    Command{"view", "the room as it will look, in each mood", evenlit::view_command},
    Command{"handout", "the plan of light as a page for who lives in the room", evenlit::handout_command},
    Command{"page", "all of this as one page for a browser, with the job in it", evenlit::page_command},
    Command{"meter", "a finished room's meter readings against the prediction", evenlit::meter_command},
    Command{"photometry", "what a photometric file says: figures, diagrams, other formats",
            evenlit::photometry_command},
    Command{"beam", "a photometric file from lumens and angles", evenlit::beam_command},
};

std::string overview() {
  std::string text =
      "evenlit: what the light in a room will be, before the first hole is cut.\n"
      "\n"
      "Usage: evenlit COMMAND ...\n"
      "\n"
      "Commands:\n";
  for (const auto& command : k_commands) {
    text += "  " + std::string(command.name) + std::string(12 - command.name.size(), ' ') +
            std::string(command.purpose) + "\n";
  }
  text +=
      "\n"
      "evenlit COMMAND --help teaches a command with examples;\n"
      "evenlit --version tells the version. A result is a calculation: licensed\n"
      "practice, the fixture's instructions and the local code come first.\n";
  return text;
}

int refuse_command(const std::string& name) {
  std::vector<std::string_view> known{"--help", "--version"};
  for (const auto& command : k_commands) known.push_back(command.name);
  const std::string nearest = evenlit::nearest_name(name, known);
  const evenlit::Problem problem{
      evenlit::whole_file("evenlit"), "there is no command " + evenlit::quoted(name),
      nearest.empty() ? "evenlit --help lists the commands" : "did you mean \"" + nearest + "\"?"};
  std::fputs(evenlit::text_of(problem).c_str(), stderr);
  return evenlit::k_bad_input;
}

int run(const std::vector<std::string>& arguments) {
  if (arguments.empty()) {
    std::fputs(overview().c_str(), stderr);
    return evenlit::k_bad_input;
  }
  if (arguments[0] == "--help" || arguments[0] == "help") {
    std::fputs(overview().c_str(), stdout);
    return evenlit::k_done;
  }
  if (arguments[0] == "--version") {
    std::puts("evenlit " EVENLIT_VERSION);
    return evenlit::k_done;
  }
  for (const auto& command : k_commands) {
    if (arguments[0] == command.name) return command.run({arguments.begin() + 1, arguments.end()});
  }
  return refuse_command(arguments[0]);
}

}  // namespace

int main(int argc, char** argv) {
  const int status = run({argv + std::min(argc, 1), argv + argc});
  if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return status;
  std::fprintf(stderr, "evenlit: the text cannot be written: %s\n", std::strerror(errno));
  return evenlit::k_cannot_write;
}
