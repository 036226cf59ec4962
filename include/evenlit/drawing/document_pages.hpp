#pragma once

#include <vector>

#include "evenlit/base/document.hpp"
#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

/// A document set on sheets of paper, each `k_paper_width` x `k_paper_height`: a picture first, then its sections in
/// large type, black on white. A table that goes on has its head again on each sheet; no row is broken, and no heading
/// stands alone at a foot. Each sheet has the title and its number at the foot.
///
/// @param picture not larger than a sheet
std::vector<Drawing> document_pages(const Document& document, const Drawing& picture);

}  // namespace evenlit
