// Clouds and deltas: what a revision changed on a sheet, ringed and numbered.
#pragma once

#include <string>
#include <vector>

#include "history/register.h"
#include "paper/lettering.h"
#include "paper/sheet.h"
#include "paper/style.h"

namespace deckquire::sheets {

/// One cloud: spots near one another share its number, in rings of their own where they do not
/// touch. Its delta reads revision and number: B1.
struct Cloud {
  int number = 0;  // from 1 on its sheet, from the top, then from the left
  std::vector<paper::PaperBox> boxes;
};
std::vector<Cloud> clouds_of(const std::vector<history::Spot>& spots);

std::vector<history::Spot> spots_of(const std::vector<paper::PaperBox>& boxes);

/// Earlier revisions may keep their deltas only.
enum class CloudParts { ring_and_delta, delta };

/// Draws them on a finished sheet, in groups of kind "cloud" on the layer of revisions. Rings keep
/// off letters: an edge moves out to where none stand, then its arcs are flatter, and where there
/// is still no way an arc is left out. Deltas stand where no letters are, beside their ring or with
/// a line to it. Arcs 8 to 12 mm across (common practice, no source) where an edge is that long.
/// Returns how many deltas found no place; to be called for one revision after the other.
int draw_clouds(paper::Sheet& sheet, const std::string& revision,
                const std::vector<history::Spot>& spots, const paper::Style& style,
                const paper::Lettering& lettering, CloudParts parts = CloudParts::ring_and_delta);

}  // namespace deckquire::sheets
