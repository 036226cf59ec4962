#include "evenlit/report/set_out_report.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <regex>

#include "evenlit/base/utf8.hpp"
#include "evenlit/job/read_job.hpp"

using namespace evenlit;

namespace {

Job scene(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  const auto job = read_job(bytes, path.string());
  REQUIRE(job);
  return *job;
}

std::vector<Job> scenes() {
  std::vector<Job> jobs;
  for (const auto& entry : std::filesystem::directory_iterator(EVENLIT_SOURCE_DIR "/scenes")) {
    if (entry.path().extension() == ".toml") jobs.push_back(scene(entry.path()));
  }
  REQUIRE(jobs.size() >= 7);
  return jobs;
}

SetOut laid_out(const Job& job) {
  auto found = set_out(job, {}, whole_file("test"));
  REQUIRE(found);
  return std::move(*found);
}

std::string page(const Job& job, const SetOut& sheet) {
  return document_html(set_out_document(job, sheet), "<svg></svg>\n", "7.25in");
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
  return text;
}

/// The cells of the table under a caption, as a browser shows them; breaks are line feeds.
std::vector<std::vector<std::string>> table_in(const std::string& html, const std::string& caption) {
  const auto begin = html.find("<caption>" + caption + "</caption>");
  REQUIRE(begin != std::string::npos);
  const std::string table = html.substr(begin, html.find("</table>", begin) - begin);
  const std::string body = table.substr(table.find("<tbody>"));
  static const std::regex k_row("<tr>(.*?)</tr>");
  static const std::regex k_cell("<t[hd][^>]*>(.*?)</t[hd]>");
  std::vector<std::vector<std::string>> rows;
  for (std::sregex_iterator row(body.begin(), body.end(), k_row), end; row != end; ++row) {
    const std::string inner = (*row)[1];
    std::vector<std::string>& cells = rows.emplace_back();
    for (std::sregex_iterator cell(inner.begin(), inner.end(), k_cell); cell != end; ++cell) {
      cells.push_back(replaced(replaced(replaced((*cell)[1], "<br>", "\n"), "&quot;", "\""), "&amp;", "&"));
    }
  }
  return rows;
}

/// What a cell reads in metres; checks that the plain inches beside feet and inches say the same.
double read_m(const std::string& cell) {
  CAPTURE(cell);
  const auto end = cell.find('\n');
  const auto metres = metres_from_text(cell.substr(0, end));
  REQUIRE(metres);
  if (end != std::string::npos && cell[end + 1] == '(') {
    const auto inches = metres_from_text(cell.substr(end + 2, cell.find(')') - end - 2));
    REQUIRE(inches);
    CHECK(*inches == Approx(*metres).margin(1e-9));  // the same sixteenths
  }
  return *metres;
}

/// Half of 1/16 in, or of 1 mm, and what doubles round.
double half_mark_m(const Job& job) { return (job.units == Units::imperial ? k_metres_per_inch / 32 : 0.0005) + 1e-9; }

double distance_m(const Shape& room, const std::string& wall, const Eigen::Vector2d& point) {
  const int index = *wall_index(room, wall);
  const Eigen::Vector2d along = along_wall(room, index);
  const Eigen::Vector2d offset = point - room.corners_m[static_cast<std::size_t>(index)];
  return along.x() * offset.y() - along.y() * offset.x();
}

/// Parses all tables of positions back.
void check_round_trip(const Job& job) {
  const SetOut sheet = laid_out(job);
  const std::string html = page(job, sheet);
  const auto cans = table_in(html, "Centres of the cans");
  REQUIRE(cans.size() == job.cans.size());
  for (std::size_t i = 0; i < cans.size(); ++i) {
    const Eigen::Vector2d centre = plan_position(job.room, job.cans[std::stoul(cans[i][1]) - 1]).value();
    for (std::size_t k = 0; k < 2; ++k) {
      const double true_m = distance_m(job.room, sheet.cans[i].from[k].wall, centre);
      CHECK(std::abs(read_m(cans[i][2 + k]) - true_m) <= half_mark_m(job));
    }
  }
  const auto lines = table_in(html, "Lines to snap");
  const auto along = table_in(html, "Along each line");
  REQUIRE(along.size() == job.cans.size());
  for (std::size_t i = 0; i < along.size(); ++i) {
    const MarkedRow& row = sheet.rows[std::stoul(along[i][0]) - 1];
    const Eigen::Vector2d way = (row.end_m - row.start_m).normalized();
    const Eigen::Vector2d centre = sheet.cans[i].centre_m;
    CHECK(std::abs(read_m(along[i][2]) - way.dot(centre - row.start_m)) <= half_mark_m(job));
    if (along[i][3].empty()) {
      CHECK(std::abs(read_m(along[i][4]) - way.dot(row.end_m - centre)) <= half_mark_m(job));
    } else {
      const Eigen::Vector2d next = sheet.cans[i + 1].centre_m;
      CHECK(std::abs(read_m(along[i][3]) - way.dot(next - centre)) <= half_mark_m(job));
    }
  }
  REQUIRE(lines.size() == sheet.rows.size());
  for (std::size_t i = 0; i < lines.size(); ++i) {
    CHECK(std::abs(read_m(lines[i][1]) - sheet.rows[i].wall.distance_m) <= half_mark_m(job));
    const double length_m = (sheet.rows[i].end_m - sheet.rows[i].start_m).norm();
    CHECK(std::abs(read_m(lines[i][5]) - length_m) <= half_mark_m(job));
  }
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE("set-out sheet: what is printed leads back to the cans in every scene", "[report][property]") {
  for (const Job& job : scenes()) {
    CAPTURE(job.room.name);
    check_round_trip(job);
  }
}

TEST_CASE("set-out sheet: what is printed leads back to the cans in rooms out of square", "[report][property]") {
  std::mt19937 random(5);
  const auto between = [&](double least, double most) { return std::uniform_real_distribution(least, most)(random); };
  for (int i = 0; i < 40; ++i) {
    Job job;
    job.units = i % 4 == 0 ? Units::metric : Units::imperial;
    job.room = {"Room", {{0, 0}, {6, 0}, {6, 4}, {0, 4}}, {"south", "east", "north", "west"}, 2.5};
    const Eigen::Rotation2Dd turn(i % 2 == 0 ? 0 : between(-3, 3));
    for (Eigen::Vector2d& corner : job.room.corners_m) {
      corner = turn * (corner + Eigen::Vector2d(between(-0.2, 0.2), between(-0.2, 0.2)));
    }
    job.can_types.push_back({.name = "six_inch", .hole_m = 0.16});
    const double off_south_m = between(0.5, 1.5);
    for (int k = 0; k < 6; ++k) {
      const double second_m = k < 3 ? off_south_m : between(2, 3);
      job.cans.push_back({.type = "six_inch", .from = {{"south", second_m}, {"west", between(0.5, 5)}}});
    }
    CAPTURE(i);
    check_round_trip(job);
  }
}

TEST_CASE("set-out sheet: a page of valid structure without scripts, boxes to tick for every can", "[report][exact]") {
  for (const Job& job : scenes()) {
    const std::string html = page(job, laid_out(job));
    CHECK(html.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
    CHECK(html.ends_with("</html>\n"));
    CHECK(html.find("<script") == std::string::npos);
    CHECK(html.find("@page") != std::string::npos);
    CHECK(count_of(html, "<h1>") == 1);
    // A can that does not fit has no box for its cut.
    const SetOut set_out = laid_out(job);
    const auto uncut = std::ranges::count_if(
        set_out.cans, [&](const MarkedCan& can) { return can.hole && !set_out.check.holes[*can.hole].hits.empty(); });
    CHECK(count_of(html, "&#9744;") == 5 * job.cans.size() - static_cast<std::size_t>(uncut));
    for (const std::string tag :
         {"table", "caption", "thead", "tbody", "tr", "td", "th", "section", "h2", "p", "figure"}) {
      CAPTURE(tag);
      const std::size_t opened = count_of(html, "<" + tag + ">") + count_of(html, "<" + tag + " ");
      CHECK(opened == count_of(html, "</" + tag + ">"));
    }
    CHECK(count_of(html, "<th>") == 0);  // every head says what it heads
  }
}

TEST_CASE("set-out sheet: text of the job cannot leave its place in the page", "[report][exact]") {
  Job job = scene(EVENLIT_SOURCE_DIR "/scenes/family-room.toml");
  job.room.name = "<b>\"Tom\" & 'Ann'</b>\x01";
  for (Can& can : job.cans) can.type = "<i>";
  job.can_types = {{.name = "<i>", .hole_m = 0.1}};
  const std::string html = page(job, laid_out(job));
  CHECK(html.find("<b>") == std::string::npos);
  CHECK(html.find("<i>") == std::string::npos);
  CHECK(html.find("&lt;b&gt;&quot;Tom&quot; &amp; 'Ann'") != std::string::npos);
}

TEST_CASE("set-out sheet: lines for a terminal are no longer than 80 columns", "[report][property]") {
  for (const Job& job : scenes()) {
    const SetOut sheet = laid_out(job);
    const std::string text = document_text(set_out_document(job, sheet));
    std::string_view rest = text;
    while (!rest.empty()) {
      const std::string_view line = rest.substr(0, rest.find('\n'));
      CAPTURE(std::string(line));
      CHECK(code_points(line) <= 80);
      rest.remove_prefix(std::min(rest.size(), line.size() + 1));
    }
    const std::string words = std::regex_replace(text, std::regex("\\s+"), " ");
    for (const char* caution :
         {"asbestos or lead", "pilot hole", "proven on a live source", "ladder", "Never cut", "licensed electrician"}) {
      CAPTURE(caution);
      CHECK(words.find(caution) != std::string::npos);
    }
  }
}

TEST_CASE("set-out sheet: a can that does not fit, an unknown ceiling and a slope are told", "[report][exact]") {
  const Job keeping = scene(EVENLIT_SOURCE_DIR "/scenes/keeping-room.toml");
  const std::string misfit = page(keeping, laid_out(keeping));
  CHECK(
      misfit.find("(in the job 3) does not fit: its housing is 3/4&quot; too near to the doubled joist. Do not cut") !=
      std::string::npos);
  const Job kitchen = scene(EVENLIT_SOURCE_DIR "/scenes/metric-kitchen.toml");
  CHECK(page(kitchen, laid_out(kitchen)).find("tells nothing of what is above this ceiling") != std::string::npos);
  const Job attic = scene(EVENLIT_SOURCE_DIR "/scenes/attic-bedroom.toml");
  CHECK(page(attic, laid_out(attic)).find("under a slope: all distances are level") != std::string::npos);
}

TEST_CASE("set-out sheet: a can that hits another one is told by both numbers of the sheet", "[report][exact]") {
  // Cans 8 and 1 of the job become 1 and 2: 4" apart, so that holes of 6-3/8" overlap by 2-3/8".
  Job job = scene(EVENLIT_SOURCE_DIR "/scenes/family-room.toml");
  job.cans[7].from[0] = {"west", job.cans[0].from[0].distance_m - 4 * k_metres_per_inch};
  job.cans[7].from[1] = job.cans[0].from[1];
  job.joists.clear();
  const std::string text = document_text(set_out_document(job, laid_out(job)));
  const std::string words = std::regex_replace(text, std::regex("\\s+"), " ");
  CHECK(words.find("Can 1 (in the job 8) does not fit: its hole is 2-3/8\" too near to can 2.") != std::string::npos);
  CHECK(words.find("Can 2 (in the job 1) does not fit: its hole is 2-3/8\" too near to can 1.") != std::string::npos);
}

TEST_CASE("set-out sheet: the family room by hand", "[report][exact]") {
  // Two rows 3' 3" off the long walls; 13' - 3' 3" = 9' 9" from the south; 2' 11", 6' 11", 10' 11", 14' 11" from the
  // west, 4' 0" apart, 18' 2" - 14' 11" = 3' 3" left. Joists at 27" and 43" on centre, 1-1/2" thick, around 35": half
  // of (16" - 1-1/2" - 6-3/8") = 4-1/16" is clear on each side.
  const Job job = scene(EVENLIT_SOURCE_DIR "/scenes/family-room.toml");
  const std::string html = page(job, laid_out(job));
  const auto cans = table_in(html, "Centres of the cans");
  CHECK(cans[0] == std::vector<std::string>{"1", "1", "3' 3\"\n(39\")", "2' 11\"\n(35\")", "6-3/8\"", "&#9744;",
                                            "&#9744;", "&#9744;", "&#9744;", "&#9744;"});
  CHECK(cans[7][2] == "9' 9\"\n(117\")");
  CHECK(cans[7][3] == "14' 11\"\n(179\")");
  const auto along = table_in(html, "Along each line");
  CHECK(along[2] == std::vector<std::string>{"1", "3", "10' 11\"\n(131\")", "4' 0\"\n(48\")", ""});
  CHECK(along[3] == std::vector<std::string>{"1", "4", "14' 11\"\n(179\")", "", "3' 3\"\n(39\")"});
  const auto holes = table_in(html, "What is beside each hole");
  CHECK(holes[0][2] == "W 4-1/16\"\njoist");
  CHECK(holes[0][3] == "E 4-1/16\"\njoist");
  CHECK(html.find("The rows follow the south wall") != std::string::npos);
}
