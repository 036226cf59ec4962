#include <catch2/catch.hpp>
#include <random>

#include "program.hpp"

namespace {

const std::string k_old_map = "an older file";

/// `check_refused` beside a file map.png of an earlier run.
void check_refused_beside_map(const Folder& folder, const std::string& arguments, const std::string& message) {
  folder.write("map.png", k_old_map);
  check_refused(folder, arguments, message);
}

/// The same for a job of that text, called room.toml.
void check_job_refused(const Folder& folder, const std::string& job, const std::string& message) {
  folder.write("room.toml", job);
  check_refused_beside_map(folder, "room.toml --map map.png --csv grid.csv", message);
}

std::string job_with_file(const std::string& name) {
  return with(sample_job(), "beam = { lumens = 900, angle = 60 }", "file = \"" + name + "\"");
}

void check_photometry_refused(const std::string& bytes, const std::string& message) {
  const Folder folder;
  folder.write("can.ies", bytes);
  check_job_refused(folder, job_with_file("can.ies"), message);
}

std::string noise() {
  std::mt19937 generator(1);
  std::string bytes(3000, '\0');
  for (char& byte : bytes) byte = static_cast<char>(generator() & 0xffU);
  return bytes;
}

}  // namespace

TEST_CASE("a job that cannot be read is refused", "[cli]") {
  const Folder folder;
  const std::string outputs = " --map map.png --csv grid.csv";
  const std::string hint = "hint: check the name; it counts from the folder that you are in\n";
  check_refused_beside_map(folder, "room.toml" + outputs,
                           "room.toml: cannot be read: No such file or directory\n" + hint);
  check_refused_beside_map(folder, "'a\033[31m.toml'" + outputs,
                           "a?[31m.toml: cannot be read: No such file or directory\n" + hint);
  std::filesystem::create_directory(folder.path() / "rooms");
  check_refused_beside_map(folder, "rooms" + outputs, "rooms: is a folder\nhint: name a file in it\n");
  check_refused_beside_map(folder, "/dev/zero" + outputs, "/dev/zero: is a device or a pipe\nhint: name a file\n");

  // Not readable by anybody, root included.
  std::filesystem::create_symlink("loop.toml", folder.path() / "loop.toml");
  check_refused_beside_map(folder, "loop.toml" + outputs,
                           "loop.toml: cannot be read: Too many levels of symbolic links\n" + hint);
}

TEST_CASE("a file that cannot be a job is refused", "[cli]") {
  const Folder folder;
  check_job_refused(folder, "", "room.toml: the job file is empty\nhint: scenes/README.md tells how to write one\n");
  check_job_refused(folder, noise(),
                    "room.toml: the job file is not UTF-8 text\nhint: save it as plain text in UTF-8\n");
  check_job_refused(folder, std::string(2U << 20U, '#'),
                    "room.toml: the job file is larger than 1 MiB\nhint: a job is one room\n");
}

TEST_CASE("a job cut off anywhere is refused, or is the whole job", "[cli]") {
  const Folder folder;
  const std::string job = sample_job();
  for (std::size_t size = 0; size < job.size() - 1; size += 23) {
    CAPTURE(size);
    folder.write("room.toml", job.substr(0, size));
    const Run run = folder.run("evenlit light room.toml --map map.png");
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(run.err.starts_with("room.toml:"));
    CHECK(folder.files().size() == 1);
  }
}

TEST_CASE("a job that makes no sense is refused at its line and column", "[cli]") {
  const Folder folder;
  const std::string job = sample_job();
  check_job_refused(folder, with(job, "west = \"1.2 m\"", "west = \"3.5 m\""),
                    "room.toml:22:8: the can's centre is 0.50 m outside the room\n"
                    "   22 | from = { west = \"3.5 m\", south = \"0.9 m\" }\n"
                    "      |        ^~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~\n"
                    "hint: each distance is square to its wall, from the wall into the room\n");
  check_job_refused(folder, with(job, "\"0.5 m\"", "\"0.1 mm\""),
                    "room.toml:14:11: grid spacing \"0.1 mm\" is below 1 cm\n"
                    "   14 | spacing = \"0.1 mm\"\n"
                    "      |           ^~~~~~~~\n"
                    "hint: allowed: at least 1 cm, at most 1 km\n");
  check_job_refused(folder, with(with(job, "\"0.5 m\"", "\"1 cm\""), "\"3 m\"", "\"300 m\""),
                    "room.toml: a grid of 30000 x 200 points is more than 50000\n"
                    "hint: choose a wider spacing of the work plane's grid\n");
  check_job_refused(folder, with(job, "ceiling = 0.8", "ceiling = 1.2"),
                    "room.toml:10:11: ceiling reflectance 1.2 is above 1\n"
                    "   10 | ceiling = 1.2\n"
                    "      |           ^~~\n"
                    "hint: write the part of the light that comes back: 0 to below 1, a white ceiling about 0.8\n");
  check_job_refused(folder, with(job, "lumens = 900", "lumens = 0"),
                    "room.toml:17:19: beam lumens 0 is not above 0\n"
                    "   17 | beam = { lumens = 0, angle = 60 }\n"
                    "      |                   ^\n"
                    "hint: allowed: above 0, at most 10000000\n");
  check_job_refused(
      folder,
      with(job, "width = \"3 m\"\ndepth = \"2 m\"",
           "corners = [[\"0 m\", \"0 m\"], [\"3 m\", \"2 m\"], [\"3 m\", \"0 m\"], [\"0 m\", \"2 m\"]]"),
      "room.toml:5:11: walls \"wall 1\" and \"wall 3\" cross or touch\n"
      "    5 | corners = [[\"0 m\", \"0 m\"], [\"3 m\", \"2 m\"], [\"3 m\", \"0 m\"], [\"0 m\", \"2 m\"]]\n"
      "      |           ^~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~\n"
      "hint: list the corners in the order in which you pass them walking along the walls\n");
}

TEST_CASE("a number that is not finite is refused", "[cli]") {
  const Folder folder;
  for (const std::string number : {"nan", "inf", "-inf"}) {
    folder.write("room.toml", with(sample_job(), "watts = 10", "watts = " + number));
    const Run run = folder.run("evenlit light room.toml");
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(run.err.starts_with("room.toml:18:9: watts " + number + " is not a finite number\n"));
  }
}

TEST_CASE("a photometric file that cannot be read is refused where the job names it", "[cli]") {
  const Folder folder;
  std::filesystem::create_directory(folder.path() / "folder.ies");
  const auto message = [](const std::string& what, const std::string& name) {
    return "room.toml:17:8: " + what + "   17 | file = \"" + name + "\"\n      |        ^" +
           std::string(name.size() + 1, '~') + "\n";
  };
  check_job_refused(folder, job_with_file("none.ies"),
                    message("\"none.ies\" cannot be read: No such file or directory\n", "none.ies") +
                        "hint: check the name; it counts from the folder of room.toml\n");
  check_job_refused(folder, job_with_file("folder.ies"),
                    message("\"folder.ies\" is a folder\n", "folder.ies") + "hint: name a file in it\n");
}

TEST_CASE("a photometric file that says nothing usable is refused", "[cli]") {
  const std::string good = shipped_photometry();
  check_photometry_refused("", "can.ies: file is empty\n");
  check_photometry_refused(with(good, "[TEST]", std::string(1, '\0')),
                           "can.ies: not a text file: zero byte at offset 18\n");
  const Folder folder;
  for (const std::string& bytes : {noise(), good.substr(0, good.size() / 2), with(good, "1 -1 1 37", "1 -1 1 99"),
                                   with(good, "1 -1 1 37", "1 -1 1 -7"), with(good, "829.2", "nan")}) {
    folder.write("can.ies", bytes);
    folder.write("room.toml", job_with_file("can.ies"));
    const Run run = folder.run("evenlit light room.toml --map map.png");
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(run.err.starts_with("can.ies:"));
    CHECK(folder.files().size() == 2);
  }
}

TEST_CASE("a photometric file without light is refused", "[cli]") {
  check_photometry_refused(
      "IESNA:LM-63-2002\n[TEST] none\n[TESTLAB] none\n[ISSUEDATE] 01-JAN-2025\n[MANUFAC] invented\n"
      "TILT=NONE\n1 -1 1 3 1 1 2 -0.1 -0.1 0\n1 1 10\n0 45 90\n0\n0 0 0\n",
      "room.toml:17:8: the photometric file of can type \"round\" holds no light\n"
      "   17 | file = \"can.ies\"\n"
      "      |        ^~~~~~~~~\n"
      "hint: choose a file whose candelas are not all 0\n");
}

TEST_CASE("mistakes in several files are told together, each once", "[cli]") {
  const Folder folder;
  folder.write("empty.ies", "");
  check_job_refused(folder,
                    job_with_file("empty.ies") + "[can_types.second]\nfile = \"none.ies\"\n" +
                        "[can_types.third]\nfile = \"empty.ies\"\n",
                    "empty.ies: file is empty\n"
                    "room.toml:24:8: \"none.ies\" cannot be read: No such file or directory\n"
                    "   24 | file = \"none.ies\"\n"
                    "      |        ^~~~~~~~~~\n"
                    "hint: check the name; it counts from the folder of room.toml\n");
  check_refused_beside_map(folder, "none.toml --map no/map.png",
                           "none.toml: cannot be read: No such file or directory\n"
                           "hint: check the name; it counts from the folder that you are in\n"
                           "no/map.png: its folder does not exist\n"
                           "hint: make the folder first\n");
}
