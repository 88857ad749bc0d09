// The paper of the shop, the yard and the site: templates, travellers, tags, loads, a workbook.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <thread>

#include "commands/chosen_style.h"
#include "commands/commands.h"
#include "commands/load.h"
#include "paper/lettering.h"
#include "schedules/field.h"
#include "schedules/schedules.h"
#include "sheets/field_sheet.h"
#include "sheets/handover.h"
#include "sheets/load_sheets.h"
#include "sheets/plan.h"
#include "sheets/tags.h"
#include "sheets/templates.h"
#include "sheets/travellers.h"
#include "writers/output.h"
#include "writers/workbook.h"
#include "writers/writers.h"

namespace deckquire::commands {
namespace {

namespace fs = std::filesystem;

struct ShopPaper {
  std::vector<writers::OutputFile> files;
  std::string said;  // "3 templates on 23 pages, 38 travellers ..."
};

class Shop {
 public:
  Shop(const sheets::SetInput& input, const sheets::ShopPage& page, int jobs)
      : in_(input), page_(page), jobs_(jobs), plan_(sheets::plan_panel_sheets(input)) {
    info_.title = input.project.title;
    info_.author = input.project.party("fabricator");
    info_.job = input.project.number;
    info_.date = input.project.revisions.empty() ? "" : input.project.revisions.back().date;
    info_.inks.assign(input.style.inks.begin(), input.style.inks.end());
  }

  ShopPaper make(const std::optional<Deliveries>& deliveries) {
    const auto patterns = hole_patterns(in_.project, in_.deck);
    pdf("templates.pdf", sheets::template_sheets(in_, patterns, page_), "pages of templates");
    for (const paper::Sheet& s : sheets::cutter_outlines(in_, patterns))
      svg("cutter/" + s.number + ".svg", s);
    pdf("travellers.pdf", sheets::traveller_sheets(in_, plan_, page_), "travellers");
    pdf("handover.pdf", sheets::handover_sheets(in_, page_), "pages of hand-over");
    pdf("tags.pdf", sheets::tag_sheets(in_, plan_, page_), "pages of tags");
    for (std::size_t i = 0; i < in_.deck.panels.size(); ++i)
      svg("tags/" + in_.deck.panels[i].serial + ".svg",
          sheets::tag_sheet(in_, plan_, static_cast<int>(i), page_));
    pdf("field.pdf", sheets::field_sheets(in_, field_tables(in_.project, in_.bridge, in_.deck), page_),
        "pages to measure by");
    std::vector<Table> tables = sheets::with_panel_sheets(in_.tables, in_, plan_);
    if (deliveries) {
      pdf("loads.pdf", sheets::load_sheets(in_, *deliveries, page_), "pages of loads");
      tables.push_back(loads_table(in_.deck, *deliveries));
      tables.push_back(trucks_table(*deliveries));
    }
    out_.files.push_back({"tables.xlsx", writers::write_workbook(tables, info_)});
    return std::move(out_);
  }

 private:
  const sheets::SetInput& in_;
  const sheets::ShopPage& page_;
  int jobs_;
  sheets::SetPlan plan_;
  writers::DocumentInfo info_;
  ShopPaper out_;

  void pdf(const std::string& path, const std::vector<paper::Sheet>& pages, const char* what) {
    if (pages.empty()) return;
    out_.files.push_back({path, writers::write_pdf(pages, info_, in_.lettering, jobs_)});
    out_.said += fmt::format("{}{} {}", out_.said.empty() ? "" : ", ", pages.size(), what);
  }
  void svg(const std::string& path, const paper::Sheet& sheet) {
    out_.files.push_back({path, writers::write_svg(sheet, info_, in_.lettering)});
  }
};

std::string out_folder(const ShopOptions& options) {
  if (!options.out.empty()) return options.out;
  return (fs::path("out") / (fs::path(options.project).stem().string() + "-shop")).string();
}

}  // namespace

int shop(const ShopOptions& options) {
  const auto page = sheets::shop_page(options.page);
  if (!page) {
    fmt::print(stderr, "deckquire: --page: '{}' is none of {}\n", options.page,
               join(sheets::shop_page_names(), ", "));
    return wrong_command_line;
  }
  Findings findings;
  const auto loaded = load(options.project, findings);
  const auto style = loaded ? style_of(loaded->project, options.style, findings) : std::nullopt;
  const auto deliveries = style ? plan_deliveries(loaded->project, loaded->deck, findings) : std::nullopt;
  report(findings);
  if (!style || findings.has_errors()) return project_errors;
  const paper::Lettering lettering(style->fonts);
  const std::vector<Table> tables = schedules_by_now(*loaded);
  const std::vector<Finding> remarks = findings.sorted();
  const sheets::SetInput input{loaded->project, loaded->bridge, loaded->deck, tables,
                               loaded->scope,   remarks,        *style,       lettering};
  const int jobs = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
  const ShopPaper made = Shop(input, *page, jobs).make(deliveries);
  const std::string out = out_folder(options);
  writers::replace_set(out, made.files);
  fmt::print("{} -> {}\n", made.said, out);
  return done;
}

}  // namespace deckquire::commands
