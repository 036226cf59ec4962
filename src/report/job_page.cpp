#include "evenlit/report/job_page.hpp"

#include <nlohmann/json.hpp>

#include "evenlit/base/markup.hpp"

namespace evenlit {
namespace {

constexpr std::string_view k_start = R"(<script type="application/json" id="job">)";
constexpr std::string_view k_empty = "null</script>";

/// JSON that no HTML parser takes for markup: it then has no "<" at all.
std::string without_markup(const std::string& json) {
  std::string text;
  for (const char letter : json) {
    if (letter == '<') {
      text += "\\u003c";
    } else {
      text += letter;
    }
  }
  return text;
}

}  // namespace

Result<std::string> job_page(std::string_view blank, const std::string& name, std::string_view text,
                             const std::vector<NamedFile>& files, const Place& blank_place) {
  const std::string place = std::string(k_start) + std::string(k_empty);
  const std::size_t found = blank.find(place);
  if (found == std::string_view::npos || blank.find(place, found + 1) != std::string_view::npos) {
    return failure(blank_place, "this is no blank page", "scripts/page makes one: .build/page/evenlit.html");
  }
  nlohmann::ordered_json job{{"name", name}, {"text", text}, {"files", nlohmann::ordered_json::object()}};
  for (const NamedFile& file : files) job["files"][file.name] = base64(std::string(file.bytes));
  const std::string json = job.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
  std::string page(blank.substr(0, found));
  page += k_start;
  page += without_markup(json);
  page += blank.substr(found + place.size() - std::string_view("</script>").size());
  return page;
}

}  // namespace evenlit
