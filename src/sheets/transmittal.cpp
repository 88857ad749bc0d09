#include "sheets/transmittal.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.h"
#include "sheets/furniture.h"
#include "sheets/redlines.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::LetterUse;
using paper::PaperBox;
using paper::TableData;

const history::Issue* last_issue(const SetInput& input) {
  return input.history ? input.history->issued.last_issue() : nullptr;
}

const Revision* this_revision(const SetInput& input) {
  const auto& all = input.project.revisions;
  return all.empty() ? nullptr : &all.back();
}

/// What the set is sent for, and what is asked with it: common practice, no source.
std::string asked_with(const std::string& status) {
  if (status == "for approval")
    return "For approval. Please return every sheet with the reviewer's action, name and date.";
  if (status == "approved as noted")
    return "Approved as noted: what was noted is carried out before or with the work.";
  if (status == "revise and resubmit")
    return "Returned: nothing of it is made; it comes back with the next revision.";
  if (status == "for fabrication")
    return "Released to the shop. What each sheet replaces is no longer used.";
  if (status == "as built") return "For the record: what was built.";
  return "Preliminary: for information, nothing is made from it.";
}

std::string party_line(const Project& p, const std::string& role) {
  for (const Party& party : p.parties)
    if (party.role == role)
      return party.contact.empty() ? party.name : party.name + ", " + party.contact;
  return "not stated";
}

TableData head_table(const SetInput& input) {
  const Project& p = input.project;
  const Revision* r = this_revision(input);
  TableData t{"TRANSMITTAL",
              {{"What", "", Align::left, 0}, {"", "", Align::left, 0}},
              {},
              {},
              {}};
  t.rows = {{"Submittal", p.number + "-" + (r ? r->id : "")},
            {"Project", p.title},
            {"Date", r ? r->date : ""},
            {"Status", r ? r->status : ""},
            {"From", party_line(p, "fabricator")},
            {"To", party_line(p, "contractor")},
            {"For", party_line(p, "designer") + "; " + party_line(p, "owner")},
            {"Drawn, checked", r ? r->by + "; " + r->checked : ""},
            {"What changed", r ? r->text : ""},
            {"What is asked", asked_with(r ? r->status : "")},
            {"Sent how; reply due", ""},
            {"Received: name, date", ""}};
  return t;
}

/// Positions in short: "3, 5 to 8".
std::string ranges(std::vector<int> list) {
  std::sort(list.begin(), list.end());
  std::vector<std::string> out;
  for (std::size_t i = 0; i < list.size();) {
    std::size_t k = i;
    while (k + 1 < list.size() && list[k + 1] == list[k] + 1) ++k;
    out.push_back(k > i + 1 ? fmt::format("{} to {}", list[i], list[k]) : std::to_string(list[i]));
    if (k == i + 1) out.push_back(std::to_string(list[k]));
    i = k + 1;
  }
  return join(out, ", ");
}

struct MarkState {
  int before = 0, now = 0;
  bool issued_ever = false;
  std::vector<int> positions;              // now, or of a withdrawn mark before
  std::map<std::string, int> instead;      // marks that took or gave its positions
  int made[4] = {0, 0, 0, 0};              // by Stage
};

std::map<std::string, MarkState> mark_states(const SetInput& input, const history::Issue& last) {
  std::map<std::string, MarkState> out;
  std::map<int, std::string> before, now;
  for (const history::Entry& e : input.history->issued.entries)
    for (std::size_t i = 0; e.issue && i < e.issue->marks.size(); ++i)
      out[e.issue->marks[i].name].issued_ever = true;
  for (const history::IssuedPosition& p : last.positions) {
    before[p.position] = p.mark;
    ++out[p.mark].before;
  }
  for (const Panel& p : input.deck.panels) {
    const std::string& name = input.deck.marks[static_cast<std::size_t>(p.mark)].name;
    now[p.position] = name;
    ++out[name].now;
    out[name].positions.push_back(p.position);
  }
  for (const auto& [position, mark] : before) {
    const auto there = now.find(position);
    if (there != now.end() && there->second == mark) continue;
    if (out[mark].now == 0) out[mark].positions.push_back(position);
    if (there == now.end()) continue;
    ++out[mark].instead[there->second];
    ++out[there->second].instead[mark];
  }
  for (const history::PanelLife& life : input.history->issued.lives())
    if (!life.voided) ++out[life.mark].made[static_cast<int>(life.stage)];
  return out;
}

std::string change_of(const MarkState& s) {
  if (s.now == 0) return "withdrawn";
  if (s.before == 0) return s.issued_ever ? "in use again" : "new";
  return "quantity";
}

bool is_void(const std::string& number, const std::vector<SentSheet>& sent) {
  return std::any_of(sent.begin(), sent.end(), [&](const SentSheet& s) {
    return s.number == number && s.status == "void";
  });
}

Cell count_cell(int n) {
  return n == 0 ? Cell{} : Cell{std::int64_t{n}};
}

}  // namespace

Table transmittal_table(const std::vector<SentSheet>& sheets) {
  Table t;
  t.name = "transmittal";
  t.title = "Sheets sent";
  t.on_sheet = false;
  t.columns = {{"sheet", "Sheet"},   {"title", "Title"},        {"revision", "Rev"},
               {"status", "Status"}, {"change", "What changed"}, {"replaces", "Replaces"}};
  for (const SentSheet& s : sheets)
    t.rows.push_back({s.number, s.title, s.revision, s.status, s.change, s.replaces});
  return t;
}

Table revised_marks(const SetInput& input) {
  Table t;
  t.name = "revised-marks";
  t.title = "Marks that the revision changes";
  t.on_sheet = false;
  t.columns = {{"mark", "Mark"},
               {"change", "Change"},
               {"before", "Was", Measure::count},
               {"now", "Is", Measure::count},
               {"positions", "Positions"},
               {"exchanged_with", "Exchanged with"},
               {"cast", "Cast", Measure::count},
               {"shipped", "Shipped", Measure::count},
               {"set", "Set", Measure::count}};
  const history::Issue* last = last_issue(input);
  if (last == nullptr) return t;
  for (const auto& [mark, s] : mark_states(input, *last)) {
    if (s.before == s.now && s.instead.empty()) continue;
    std::vector<std::string> instead;
    for (const auto& [other, n] : s.instead) instead.push_back(other);
    using history::Stage;
    t.rows.push_back({mark, change_of(s), std::int64_t{s.before}, std::int64_t{s.now},
                      ranges(s.positions), join(instead, ", "),
                      count_cell(s.made[static_cast<int>(Stage::cast)]),
                      count_cell(s.made[static_cast<int>(Stage::shipped)]),
                      count_cell(s.made[static_cast<int>(Stage::set)])});
  }
  return t;
}

Table voided_serials(const SetInput& input) {
  Table t;
  t.name = "void-serials";
  t.title = "Serials that become void";
  t.on_sheet = false;
  t.columns = {{"serial", "Serial"}, {"mark", "Mark"}, {"stage", "Was"},
               {"position", "Position", Measure::count}, {"replaced_by", "Replaced by"}};
  const history::Issue* last = last_issue(input);
  if (last == nullptr) return t;
  const char* const stages[] = {"not made", "cast", "shipped", "set"};
  std::map<int, std::string> now;
  std::map<std::string, history::Stage> stage;
  for (const Panel& p : input.deck.panels) now[p.position] = p.serial;
  for (const history::PanelLife& life : input.history->issued.lives())
    stage[life.serial] = life.stage;
  for (const history::IssuedPosition& p : last->positions) {
    const auto there = now.find(p.position);
    if (there != now.end() && there->second == p.serial) continue;
    t.rows.push_back({p.serial, p.mark, std::string(stages[static_cast<int>(stage[p.serial])]),
                      std::int64_t{p.position},
                      there == now.end() ? Cell{} : Cell{there->second}});
  }
  return t;
}

TransmittalPages::TransmittalPages(const SetInput& input, const SetPlan& plan,
                                   const std::vector<SentSheet>& sent)
    : style(reading_style(input.style)), board(scratch, style, input.lettering), columns(board, {}) {
  const auto add = [&](const Table& t, const std::string& heading) {
    if (t.rows.empty()) return;
    TableData data = printed(t, input.project.units);
    data.title = heading;
    if (t.name != "transmittal") data.targets.clear();
    for (std::string& target : data.targets)
      if (is_void(target, sent)) target.clear();
    add_table(blocks, data, 25);
  };
  add_table(blocks, head_table(input));
  add(transmittal_table(sent), "SHEETS SENT");
  add(revised_marks(input), "MARKS THAT THE REVISION CHANGES");
  add(voided_serials(input), "SERIALS THAT BECOME VOID");
  if (!input.project.redlines.empty()) add_table(blocks, redline_rows(input, plan), 25);
  const PaperBox space = style.drawing_space().grown(-1.6 * style.gap);
  const auto boxes =
      columns_across(space, 90 * style.letters_of(LetterUse::note), 2.5 * style.gap);
  per_sheet = boxes.size();
  for (std::size_t more = 0; more < 40; ++more) {
    for (const PaperBox& box : boxes) columns.add(box);
    ++sheets;
    if (columns.flow(blocks)) return;
  }
}

void plan_transmittal(SetPlan& plan, const SetInput& input, std::vector<SentSheet> sent,
                      std::vector<SentSheet> after) {
  const Revision* r = this_revision(input);
  const std::string id = r ? r->id : "";
  const auto own = [&](std::size_t i) {
    return SentSheet{"R" + padded(static_cast<int>(i) + 1, 2), "TRANSMITTAL, REVISION " + id, id,
                     r ? r->status : "", "of this revision", ""};
  };
  std::shared_ptr<const TransmittalPages> pages;
  std::size_t count = 1;
  do {
    std::vector<SentSheet> all = sent;
    for (std::size_t i = 0; i < count; ++i) all.push_back(own(i));
    for (std::size_t i = 0; i < after.size(); ++i) {
      after[i].number = own(count + i).number;
      all.push_back(after[i]);
    }
    pages = std::make_shared<const TransmittalPages>(input, plan, all);
  } while (pages->sheets > count && (count = pages->sheets) < 40);
  for (std::size_t i = 0; i < pages->sheets; ++i) {
    SheetPlan sheet;
    sheet.series = 'R';
    sheet.number = own(i).number;
    sheet.title = own(i).title;
    sheet.subject = static_cast<int>(i);
    plan.sheets.push_back(std::move(sheet));
  }
  plan.transmittal = std::move(pages);
}

bool is_transmittal(const SetPlan& plan, const SheetPlan& sheet) {
  return sheet.series == 'R' && plan.transmittal &&
         sheet.subject < static_cast<int>(plan.transmittal->sheets);
}

paper::Sheet draw_transmittal(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const SheetPlan& own = plan.sheets[index];
  const TransmittalPages& pages = *plan.transmittal;
  paper::Sheet sheet = blank_sheet(input, own);
  paper::Board furniture(sheet, input.style, input.lettering);
  const PaperBox text = furnish(furniture, input, plan, index, "none").text;
  paper::Board board(sheet, pages.style, input.lettering);
  purpose(board, text, "What is sent with this revision, and what it replaces.");
  draw_placed(board, pages.columns, static_cast<std::size_t>(own.subject) * pages.per_sheet,
              pages.per_sheet);
  return sheet;
}

}  // namespace deckquire::sheets
