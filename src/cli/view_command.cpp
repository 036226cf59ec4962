#include <fmt/format.h>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/drawing/luminance_view.hpp"
#include "evenlit/drawing/png.hpp"
#include "evenlit/report/model_file.hpp"
#include "evenlit/report/view_report.hpp"
#include "evenlit/view/light_groups.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"
#include "pictures.hpp"
#include "room_views.hpp"
#include "shown_levels.hpp"
#include "terminal_progress.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Examples:
  evenlit view scenes/living-room.toml --picture room.png
      The room as it will look from the job's first view, the cans at their own
      levels. A job without views is seen from its door, or from a corner.
  evenlit view scenes/living-room.toml --mood evening --picture evening.png
      In one of the job's moods. Pictures of a job's moods share one exposure,
      so that laid side by side they tell which is brighter.
  evenlit view my-room.toml --from "from the sofa" --picture sofa.png
      From another of the job's views.
  evenlit view my-room.toml --luminance luminance.png
      The same view in false colours, with a scale in cd/m2.
  evenlit view scenes/living-room.toml --model room.glb
      The room to be walked through: a binary glTF 2.0 file, with how much light
      each circuit throws on every place, so that it can be dimmed as one looks.

[[views]] and [colours] of a job file: scenes/README.md.
)";

struct ViewRequest {
  std::filesystem::path job;
  std::optional<std::string> from;
  std::optional<std::string> mood;
  std::optional<std::filesystem::path> picture;
  std::optional<std::filesystem::path> luminance;
  std::optional<std::filesystem::path> json;
  std::optional<std::filesystem::path> model;
  int width_px = 1280;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit view", "The room as an eye will see it.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("picture", "write the room as it will look", text(), "FILE.png");
  add("from", "one of the job's views; otherwise the first", text(), "NAME");
  add("mood", "one of the job's moods; otherwise the cans' own levels", text(), "NAME");
  add("luminance", "draw the luminances in false colours", text(), "FILE.png|svg");
  add("json", "write how the picture came to be", text(), "FILE.json");
  add("model", "write the room and its light to be walked through", text(), "FILE.glb");
  add("width", "pixels across; a picture is 16 : 9", text()->default_value("1280"), "PIXELS");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

std::string content_of_file(const ViewFacts& facts, const Image& image) {
  const std::vector<PngText> texts{{"Title", facts.job.room.name + ", " + facts.viewpoint},
                                   {"Description", view_description(facts)},
                                   {"Software", "evenlit " EVENLIT_VERSION}};
  return png(image, texts);
}

/// One picture of the room, and what it was made of.
struct Pictured {
  LitRoom room;
  Camera camera;
  RoomView view;
};

Pictured pictured(const Job& job, const Scene& scene, const Viewpoint& from, const PictureSize& size,
                  const Progress& progress) {
  constexpr double k_lit = 0.6;  // of the time, what is gone when the light between surfaces is known
  const Camera camera = camera_of(job.room, from, size);
  LitRoom room(scene, luminaire_looks(job), part_of(progress, 0, k_lit));
  RoomView view = room_view(room, camera, part_of(progress, k_lit, 1));
  return {std::move(room), camera, std::move(view)};
}

std::string model_file(const Job& job, const Pictured& pictured, const std::vector<std::vector<double>>& mood_levels,
                       const Progress& progress) {
  const auto exposure_of = [&](const std::vector<std::vector<double>>& levels) {
    return common_exposure(seen_rooms(job, pictured.view, pictured.camera, levels));
  };
  const RoomModel model = room_model(pictured.room, progress);
  ModelFacts facts{.job = job,
                   .room = pictured.room,
                   .model = model,
                   .can_levels = own_levels(job),
                   .moods = {},
                   .exposure = exposure_of({own_levels(job)}),
                   .moods_exposure = {},
                   .views = {}};
  for (std::size_t i = 0; i < mood_levels.size(); ++i) facts.moods.push_back({job.moods[i].name, mood_levels[i]});
  if (!mood_levels.empty()) facts.moods_exposure = exposure_of(mood_levels);
  for (const Viewpoint& view : open_viewpoints(job)) {
    facts.views.push_back({view.name, camera_of(job.room, view, pictured.camera.size), view.width_deg});
  }
  return room_model_glb(facts);
}

int run(const ViewRequest& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  const Place place = whole_file(request.job.string());
  Problems problems = loaded ? Problems{} : loaded.error();
  const auto outputs = paths_of({request.picture, request.luminance, request.json, request.model});
  for (auto& problem : output_problems(outputs, inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, warnings] = *loaded;
  const auto viewpoint = viewpoint_named(job, request.from, place);
  if (!viewpoint) return refused(inputs.text_of(viewpoint.error()));
  const Scene scene = build_scene(job, photometry);
  const auto levels = shown_levels(*loaded, scene, request.mood, place);
  if (!levels) return refused(inputs.text_of(levels.error()));
  Result<std::vector<std::vector<double>>> of_moods;  // for a model
  if (request.model) of_moods = request.mood ? levels->can_levels : mood_levels(*loaded, scene, place);
  if (!of_moods) return refused(inputs.text_of(of_moods.error()));

  TerminalProgress terminal("computing the view");
  const double pictured_share = request.model ? 0.8 : 1;  // of the time
  const Pictured picture =
      pictured(job, scene, *viewpoint, wide_picture(request.width_px), part_of(terminal.progress(), 0, pictured_share));
  const std::vector<SeenRoom> seen = seen_rooms(job, picture.view, picture.camera, levels->can_levels);
  const Exposure exposure = common_exposure(seen);
  const ViewFacts facts{.job = job,
                        .viewpoint = viewpoint->name,
                        .mood = request.mood,
                        .camera = picture.camera,
                        .seen = seen[levels->asked],
                        .exposure = exposure,
                        .pictures = static_cast<int>(seen.size())};
  std::vector<OutputFile> files;
  if (request.picture) {
    files.push_back({*request.picture, content_of_file(facts, displayed(facts.seen.picture, exposure))});
  }
  if (request.luminance) {
    std::vector<LuminancePicture> pictures;
    for (const SeenRoom& one : seen) pictures.push_back(one.picture);
    const Drawing drawing = luminance_view(facts.seen.picture, luminance_scale(pictures),
                                           fmt::format("{}, {}", job.room.name, viewpoint->name));
    files.push_back(drawn(drawing, *request.luminance, "evenlit: " + job.room.name, request.width_px));
  }
  if (request.json) files.push_back({*request.json, view_json(facts, warnings)});
  if (request.model) {
    const Progress progress = part_of(terminal.progress(), pictured_share, 1);
    files.push_back({*request.model, model_file(job, picture, *of_moods, progress)});
  }
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(view_text(facts, warnings));
}

}  // namespace

int view_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  ViewRequest request{.job = reader.single_name("job", "job file", "scenes/living-room.toml"),
                      .from = reader.text("from"),
                      .mood = reader.text("mood"),
                      .picture = file_ending_in(reader, "picture", ".png", "PNG"),
                      .luminance = picture(reader, "luminance"),
                      .json = reader.text("json"),
                      .model = file_ending_in(reader, "model", ".glb", "binary glTF")};
  if (reader.has("width")) request.width_px = width_px(reader);
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
