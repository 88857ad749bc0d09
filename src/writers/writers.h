// Sheets and tables -> bytes. A writer decides no position; it only walks.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "base/json.h"
#include "paper/lettering.h"
#include "paper/sheet.h"
#include "schedules/table.h"

namespace deckquire::writers {

struct DocumentInfo {
  std::string title;              // PDF title
  std::string author;             // fabricator
  std::string job;                // project number
  std::string date;               // ISO date of the last revision, goes into the metadata
  UnitSystem units = UnitSystem::metric;  // of what the index page prints
  std::vector<std::string> inks;  // "#rrggbb" by paper::Ink
  std::array<bool, paper::layer_count> hidden{};  // by paper::Layer: there, not shown at first
  std::vector<std::string> sheets;  // numbers of the set: links to others are left out; empty: keep
};

/// One PDF of all sheets: bookmarks by series, links, page labels (sheet numbers), layers that can
/// be switched on and off, metadata, deterministic ID. Pages are made in `jobs` threads; the bytes
/// do not depend on it. Throws std::runtime_error when cairo or the PDF library reports an error.
std::string write_pdf(const std::vector<paper::Sheet>& sheets, const DocumentInfo& info,
                      const paper::Lettering& lettering, int jobs);

/// One sheet as SVG with real text and embedded font subsets; links go to "<number>.svg#id". What
/// lies on a layer is inside a group of the class "layer-<name>".
std::string write_svg(const paper::Sheet& sheet, const DocumentInfo& info,
                      const paper::Lettering& lettering);

/// RFC 4180 with LF line ends, head row of machine names.
std::string write_csv(const Table& table);

/// The same as a JSON array of objects (numbers as numbers).
std::string write_json(const Table& table);

using deckquire::json_string;

/// index.html: lists the sheets and shows them; self-contained, links to sheets/, tables/, set.pdf. Tables
/// that are `on_page` stand on it whole, with a box that filters their rows where scripts run.
std::string write_index(const std::vector<paper::Sheet>& sheets, const std::vector<Table>& tables,
                        const DocumentInfo& info);

}  // namespace deckquire::writers
