#include "evenlit/drawing/set_out_plan.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "evenlit/drawing/document_pages.hpp"
#include "evenlit/drawing/paper.hpp"
#include "evenlit/job/read_job.hpp"
#include "sheet_checks.hpp"

using namespace evenlit;

namespace {

Job scene(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  const auto job = read_job(bytes, path.string());
  REQUIRE(job);
  return *job;
}

Drawing plan_of(const Job& job) {
  const auto sheet = set_out(job, {}, whole_file("test"));
  REQUIRE(sheet);
  return set_out_plan(job, *sheet);
}

bool has_text(const Drawing& drawing, const std::string& wanted) {
  return std::ranges::any_of(sample::all_of_kind<Text>(drawing), [&](const Text& text) { return text.text == wanted; });
}

constexpr std::size_t k_readings = 5;

/// Too wide to have its readings on one line.
Table long_table(std::size_t rows) {
  Table table{"A table", {{"No.", Column::Kind::number}}, {}};
  for (std::size_t i = 0; i < k_readings; ++i) table.columns.push_back({"Reading", Column::Kind::number});
  table.columns.push_back({"Done", Column::Kind::tick});
  for (std::size_t i = 0; i < rows; ++i) {
    std::vector<std::string>& cells = table.rows.emplace_back(1, std::to_string(i + 1));
    cells.resize(1 + k_readings, "12' 6-3/8\"\n(150-3/8\")");
    cells.emplace_back();
  }
  return table;
}

}  // namespace

TEST_CASE("set-out plan: the largest usual scale at which a room fits", "[drawing][exact]") {
  // 18' 2" x 13' in 6 in x 6 in: at 3/8 in it takes 6.8 in, at 1/4 in 4.5 in. 3.6 m in 152 mm: 1:25 takes 144 mm.
  const double in = k_metres_per_inch;
  CHECK(drawing_scale(218 * in, 156 * in, 6 * in, 6 * in, Units::imperial).name == "1/4 in = 1 ft");
  CHECK(drawing_scale(24 * 12 * in, in, 6 * in, 6 * in, Units::imperial).name == "1/4 in = 1 ft");
  CHECK(drawing_scale(3.6, 2.8, 0.152, 0.152, Units::metric).name == "1:25");
  CHECK(drawing_scale(1000, 1000, 0.152, 0.152, Units::metric).name == "1:10000");
  CHECK(drawing_scale(1000, 1000, 0.152, 0.152, Units::imperial).name == "1:10000");
}

TEST_CASE("set-out plan: walls and cans lie to scale, in the order of work", "[drawing][exact]") {
  const Job job = scene(EVENLIT_SOURCE_DIR "/scenes/metric-kitchen.toml");
  const Drawing plan = plan_of(job);
  CHECK(has_text(plan, "1:25, printed at 100 %: this bar is 40 mm long."));
  for (const char* number : {"1", "2", "3", "4"}) CHECK(has_text(plan, number));
  // At 1:25 the room's 3.60 m are 144 mm on paper: 680.3 units of 1/120 in. The wall band's inside is the room.
  bool found = false;
  for (const Fill& fill : sample::all_of_kind<Fill>(plan)) {
    if (fill.outlines.size() != 2) continue;
    const Eigen::AlignedBox2d inside = bounds_of(fill.outlines[1]);
    CHECK(inside.sizes().x() == Approx(0.144 / k_metres_per_inch * k_paper_units_per_in).epsilon(1e-9));
    found = true;
  }
  CHECK(found);
}

TEST_CASE("set-out plan: every scene's plan is on its sheet and large enough to read", "[drawing][property]") {
  for (const auto& entry : std::filesystem::directory_iterator(EVENLIT_SOURCE_DIR "/scenes")) {
    if (entry.path().extension() != ".toml") continue;
    CAPTURE(entry.path().string());
    const Drawing plan = plan_of(scene(entry.path()));
    sample::check_sheet(plan, 18);
    CHECK(plan.width == k_paper_width);
    CHECK(plan.height <= k_paper_height - 50);
  }
}

TEST_CASE("document pages: a long table goes on with its head, no row is lost or broken", "[drawing][exact]") {
  const Document document{"A title", {{"A section", {"Stop."}, {std::string(400, 'x') + " words"}, {long_table(90)}}}};
  const std::vector<Drawing> pages = document_pages(document, {k_paper_width, 300, {255, 255, 255}, {}});
  REQUIRE(pages.size() > 2);
  std::size_t rows = 0;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    sample::check_sheet(pages[i], 16);
    CHECK(has_text(pages[i], "Reading"));
    CHECK(has_text(pages[i], "sheet " + std::to_string(i + 1) + " of " + std::to_string(pages.size())));
    std::size_t first = 0;
    std::size_t second = 0;
    for (const Text& text : sample::all_of_kind<Text>(pages[i])) {
      first += text.text == "12' 6-3/8\"" ? 1 : 0;
      second += text.text == "(150-3/8\")" ? 1 : 0;
      CHECK(text.at.y() < k_paper_height);
    }
    CHECK(first == second);
    CHECK(first % k_readings == 0);
    rows += first / k_readings;
  }
  CHECK(rows == 90);
}

TEST_CASE("document pages: readings stay on one line where the paper is wide enough", "[drawing][exact]") {
  const Table table{"T", {{"No."}, {"Reading"}}, {{"1", "12' 6-3/8\"\n(150-3/8\")"}}};
  const auto pages = document_pages({"T", {{"S", {}, {}, {table}}}}, {k_paper_width, 10, {255, 255, 255}, {}});
  REQUIRE(pages.size() == 1);
  CHECK(has_text(pages[0], "12' 6-3/8\" (150-3/8\")"));
}

TEST_CASE("document pages: cells too wide for the paper are broken, words too long cut short", "[drawing][property]") {
  Table table{"Wide", {}, {}};
  std::vector<std::string> cells;
  for (int i = 0; i < 7; ++i) {
    table.columns.push_back({"A title of a column"});
    cells.push_back(i % 2 == 0 ? std::string(60, 'W') : "many short words that may be broken anywhere");
  }
  table.rows.push_back(cells);
  for (const Drawing& page :
       document_pages({"T", {{"S", {}, {}, {table}}}}, {k_paper_width, 10, {255, 255, 255}, {}})) {
    sample::check_sheet(page, 14);
  }
}
