#include "evenlit/field/section_light.hpp"

#include "evenlit/field/response.hpp"
#include "evenlit/field/work_plane_light.hpp"

namespace evenlit {

SectionLight section_light(const Scene& scene, CrossSection section, const Progress& progress) {
  const Response all = response(scene, receivers_of(section), Accuracy{}, progress);
  const Eigen::VectorXd levels = levels_of(scene);
  const Response alone = columns_of(all, {section.through});
  const Eigen::VectorXd alone_level = levels.segment(section.through, 1);
  return {std::move(section), field_at(all, levels).total_lx, field_at(alone, alone_level).total_lx};
}

}  // namespace evenlit
