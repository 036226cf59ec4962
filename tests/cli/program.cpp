#include "program.hpp"

#include <sys/wait.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <iterator>

namespace fs = std::filesystem;

namespace {

std::string bytes_of(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  REQUIRE(stream);
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::string quoted(const fs::path& path) { return '\'' + path.string() + '\''; }

}  // namespace

Folder::Folder() {
  std::string pattern = (fs::temp_directory_path() / "evenlit-test-XXXXXX").string();
  REQUIRE(mkdtemp(pattern.data()) != nullptr);
  root_ = pattern;
  fs::create_directory(path());
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(root_, ignored);
}

void Folder::write(const std::string& name, const std::string& bytes) const {
  std::ofstream stream(path() / name, std::ios::binary);
  stream << bytes;
  REQUIRE(stream.flush());
}

std::string Folder::read(const std::string& name) const { return bytes_of(path() / name); }

std::map<std::string, std::string> Folder::files() const {
  std::map<std::string, std::string> all;
  for (const auto& entry : fs::recursive_directory_iterator(path())) {
    if (entry.symlink_status().type() == fs::file_type::regular)
      all[fs::relative(entry.path(), path()).string()] = bytes_of(entry.path());
  }
  return all;
}

Run Folder::run(const std::string& command) const {
  const fs::path out = root_ / "out";
  const fs::path err = root_ / "err";
  // The brackets stand on lines of their own so that the command may be any list of commands.
  const std::string line = "cd " + quoted(path()) + " && PATH=" + quoted(fs::path(EVENLIT_PROGRAM).parent_path()) +
                           ":$PATH && (\n" + command + "\n) >" + quoted(out) + " 2>" + quoted(err);
  const int status = std::system(line.c_str());
  REQUIRE(WIFEXITED(status));
  return {WEXITSTATUS(status), bytes_of(out), bytes_of(err)};
}

std::string sample_job() {
  return R"(units = "metric"
target = "100 lx"

[room]
width = "3 m"
depth = "2 m"
ceiling = "2.5 m"

[finishes]
ceiling = 0.8

[work_plane]
height = "0.8 m"
spacing = "0.5 m"

[can_types.round]
beam = { lumens = 900, angle = 60 }
watts = 10

[[cans]]
type = "round"
from = { west = "1.2 m", south = "0.9 m" }
)";
}

std::string with(const std::string& text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.substr(0, at) + to + text.substr(at + from.size());
}

std::string shipped_photometry() { return bytes_of(EVENLIT_SOURCE_DIR "/photometry/six-inch-medium.ies"); }

void check_refused(const Folder& folder, const std::string& arguments, const std::string& message) {
  CAPTURE(arguments);
  const auto before = folder.files();
  const Run run = folder.run("evenlit light " + arguments);
  CHECK(run.err == message);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(folder.files() == before);
}
