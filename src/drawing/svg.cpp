#include "evenlit/drawing/svg.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <boost/crc.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/base/markup.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/png.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/drawing/text.hpp"

namespace evenlit {
namespace {

std::string number(double value) {
  std::string text = fixed_text(value, 2);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string paint(std::string_view property, const Ink& ink) {
  std::string text =
      fmt::format(" {}=\"#{:02x}{:02x}{:02x}\"", property, ink.colour.red, ink.colour.green, ink.colour.blue);
  if (ink.opacity < 1) text += fmt::format(" {}-opacity=\"{}\"", property, number(ink.opacity));
  return text;
}

bool is_drawable(const Polyline& line) {
  return !line.empty() && std::all_of(line.begin(), line.end(), [](const auto& p) { return p.allFinite(); });
}

std::string path_data(const std::vector<Polyline>& lines, bool closed) {
  std::string data;
  for (const Polyline& line : lines) {
    if (!is_drawable(line)) continue;
    data += 'M';
    for (const Eigen::Vector2d& p : line) data += number(p.x()) + ' ' + number(p.y()) + ' ';
    data.pop_back();
    if (closed) data += 'Z';
  }
  return data;
}

std::string_view anchor_name(Anchor anchor) {
  return anchor == Anchor::left ? "start" : anchor == Anchor::middle ? "middle" : "end";
}

// Named by its shape, so that two drawings in one page never take each other's clip for their own.
std::string clip_name(const std::string& outlines) {
  boost::crc_32_type sum;
  sum.process_bytes(outlines.data(), outlines.size());
  return fmt::format("clip-{:08x}", sum.checksum());
}

struct Elements {
  std::string xml;

  void operator()(const Fill& fill) {
    xml += fmt::format("<path d=\"{}\"{}/>\n", path_data(fill.outlines, true), paint("fill", fill.ink));
  }

  void operator()(const Stroke& stroke) {
    xml += fmt::format("<path d=\"{}\" fill=\"none\"{} stroke-width=\"{}\" stroke-linejoin=\"round\"",
                       path_data({stroke.points}, stroke.closed), paint("stroke", stroke.ink), number(stroke.width));
    if (!stroke.dash.empty()) {
      xml += " stroke-dasharray=\"";
      for (const double length : stroke.dash) xml += number(length) + ' ';
      xml.back() = '"';
    }
    xml += "/>\n";
  }

  void operator()(const Text& text) {
    if (text.text.empty() || !text.at.allFinite()) return;
    xml += fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}", number(text.at.x()), number(text.at.y()),
                       number(text.size), paint("fill", text.ink));
    if (text.weight == Weight::bold) xml += " font-weight=\"bold\"";
    if (text.anchor != Anchor::left) xml += fmt::format(" text-anchor=\"{}\"", anchor_name(text.anchor));
    if (text.turn_rad != 0) {
      xml += fmt::format(" transform=\"rotate({} {} {})\"", number(text.turn_rad * 180 / std::numbers::pi),
                         number(text.at.x()), number(text.at.y()));
    }
    if (text.halo_width > 0) {
      xml += fmt::format(" paint-order=\"stroke\"{} stroke-width=\"{}\" stroke-linejoin=\"round\"",
                         paint("stroke", text.halo), number(2 * text.halo_width));
    }
    xml += fmt::format(" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\">{}</text>\n",
                       number(text_width(text.text, text.size, text.weight)), markup_text(text.text));
  }

  void operator()(const FalseColour& picture) {
    const auto painted = pixels(picture);
    if (!painted) return;
    const auto& [box, image] = *painted;
    const double unit_px = box.sizes().x() / image.width;
    const std::string outlines = path_data(picture.clip, true);
    const std::string clip = clip_name(outlines);
    xml += fmt::format("<clipPath id=\"{}\"><path d=\"{}\"/></clipPath>\n", clip, outlines);
    add_image(image, box.min(), {box.sizes().x(), image.height * unit_px},
              fmt::format(" preserveAspectRatio=\"none\" clip-path=\"url(#{})\"", clip));
  }

  void operator()(const Picture& picture) {
    if (!picture.at.allFinite() || !(picture.width > 0)) return;
    add_image(picture.image, picture.at, {picture.width, picture.height()}, "");
  }

 private:
  void add_image(const Image& image, const Eigen::Vector2d& at, const Eigen::Vector2d& size,
                 std::string_view attributes) {
    xml +=
        fmt::format("<image x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{} xlink:href=\"data:image/png;base64,{}\"/>\n",
                    number(at.x()), number(at.y()), number(size.x()), number(size.y()), attributes, base64(png(image)));
  }
};

}  // namespace

std::string svg(const Drawing& drawing, std::string_view title, std::string_view width) {
  const std::string right = number(drawing.width);
  const std::string bottom = number(drawing.height);
  Elements elements;
  elements.xml = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.1\" "
      "viewBox=\"0 0 {} {}\" width=\"{}\" role=\"img\" xml:space=\"preserve\" "
      "font-family=\"B612, Verdana, sans-serif\">\n<title>{}</title>\n"
      "<rect width=\"{}\" height=\"{}\"{}/>\n",
      right, bottom, markup_text(width), markup_text(title), right, bottom, paint("fill", {drawing.paper}));
  for (const DrawingItem& item : drawing.items) std::visit(elements, item);
  return std::move(elements.xml) + "</svg>\n";
}

}  // namespace evenlit
