// Rail posts on their bolts; screw threads.
#include <fmt/format.h>

#include "workings/cautions.h"
#include "workings/groups.h"
#include "workings/inputs.h"
#include "workings/threads.h"

namespace deckquire::workings {

namespace {

const ThreadSize& size_of(const Reckoner& r) {
  return *find_thread(r.text("size"));  // the reckoner let none but these pass
}

/// d and P of a size, among the steps.
const ThreadSize& tell_size(Reckoner& r) {
  const ThreadSize& t = size_of(r);
  const std::string pitch =
      t.inch ? fmt::format("{:g} to the inch", 25.4 / t.pitch) : "coarse pitch, ISO 261";
  r.found("d", "nominal diameter", t.d, Kind::length, "mm", t.name);
  r.found("P", "pitch", t.pitch, Kind::length, "mm", t.name + ": " + pitch);
  return t;
}

/// A strength of the bolts: as given in `own`, or that of their grade.
void tell_strength(Reckoner& r, const char* symbol, const char* own, const char* meaning,
                   double BoltGrade::*what) {
  const BoltGrade* grade = r.given("grade") ? find_grade(r.text("grade"), size_of(r).d) : nullptr;
  if (!r.given(own) && (!grade || grade->*what == 0)) {
    throw WorkingError(
        fmt::format("{} is missing ({}); give it, or a grade whose value is known", own, meaning));
  }
  code_value(r, symbol, own, meaning, grade ? grade->*what : 0, Kind::pressure, "N/mm²",
             grade ? grade->source : "");
}

void tell_stress_area(Reckoner& r, const ThreadSize& t) {
  r.step("A_s",
         t.inch ? "tensile stress area, FED-STD-H28/2B Table II.B.1 (1b)"
                : "tensile stress area, ISO 898-1",
         t.inch ? "0.7854*(d - 0.9743*P)^2" : "pi/4*(d - 0.9382*P)^2", Kind::area, "mm²");
}

void thread(Reckoner& r) {
  const ThreadSize& t = tell_size(r);
  r.step("H", "height of the sharp triangle", "sqrt(3)/2*P", Kind::length, "mm");
  r.step("d_2", "pitch diameter", "d - 0.75*H", Kind::length, "mm");
  r.step("D_1", "minor diameter of the hole", "d - 1.25*H", Kind::length, "mm");
  r.step("d_3", "minor diameter of the bolt, rounded root", "d - 17/12*H", Kind::length, "mm");
  tell_stress_area(r, t);
  code_value(
      r, "d_t", "drill", "tap drill", t.drill, Kind::length, "mm",
      fmt::format(
          "{}: {}", t.drill_name,
          t.inch
              ? "list of tap drills (second-hand)"
              : "d − P rounded to stock, ISO 2306 (M8 to M12 second-hand, the rest from memory)"));
  r.step("p_t", "percent of thread", "100*(d - d_t)/(1.299*P)", Kind::number, "%");
  r.step("d_75", "drill for 75 % of thread", "d - 0.75*1.299*P", Kind::length, "mm");
  for (const char* s : {"d_2", "D_1", "d_3", "A_s", "d_t", "p_t", "d_75"}) r.result(s);
  r.condition("d_t >= D_1", "the drill is not smaller than the minor diameter",
              "the tap may break: take a larger drill");
  r.condition("d_t < d", "the drill is smaller than the thread",
              "no thread is left: take a smaller drill");
}

WorkingKind thread_kind() {
  WorkingKind k;
  k.name = "thread";
  k.title = "Geometry of a screw thread";
  k.about = "Diameters, tensile stress area, tap drill and percent of thread of a coarse thread.";
  k.group = "fasteners";
  k.sources = {"ISO 68-1, ISO 724, ASME B1.1: basic profile (second-hand)",
               "ISO 898-1 (from memory) and FED-STD-H28/2B (1991) Table II.B.1 (1b) (second-hand): "
               "stress area",
               "Percent of thread: 100 (D − drill)/(1.299 P) (second-hand)"};
  k.inputs = {InputSpec{"size", "size"}.one_of(thread_names()),
              InputSpec{"drill", "another drill", Kind::length, "mm"}.range(above_zero).if_known()};
  k.example = "size=M16";
  k.work = thread;
  return k;
}

void tell_limits(Reckoner& r, const ThreadSize& t) {
  const auto tell = [&](const char* symbol, const char* meaning, double v) {
    r.found(symbol, meaning, v, Kind::length, "mm", t.source);
  };
  tell("d_min", "least major diameter of the bolt", t.d_min);
  tell("d2_min", "least pitch diameter of the bolt", t.d2_min);
  tell("D1_max", "largest minor diameter of the hole", t.D1_max);
  tell("D2_max", "largest pitch diameter of the hole", t.D2_max);
}

void thread_stripping(Reckoner& r) {
  const ThreadSize& t = tell_size(r);
  tell_limits(r, t);
  tell_strength(r, "f_b", "Fu_b", "tensile strength of the bolt", &BoltGrade::tensile);
  tell_stress_area(r, t);
  if (r.given("LE")) {
    r.step("L_e", "full thread engaged", "LE", Kind::length, "mm");
  } else {
    need(r, "t", "thickness of the tapped plate, or give LE, the full thread engaged; a length");
    r.step("L_e", "full thread engaged, tapped through", "t - t_c", Kind::length, "mm");
  }
  r.step("n", "threads per mm", "1/P", Kind::number, "");
  r.step("a_b", "shear area of the bolt's threads per length",
         "pi*n*D1_max*(1/(2*n) + 0.57735*(d2_min - D1_max))", Kind::length, "mm");
  r.step("a_p", "shear area of the plate's threads per length",
         "pi*n*d_min*(1/(2*n) + 0.57735*(d_min - D2_max))", Kind::length, "mm");
  r.step("A_b", "shear area of the bolt's threads", "a_b*L_e", Kind::area, "mm²");
  r.step("A_p", "shear area of the plate's threads", "a_p*L_e", Kind::area, "mm²");
  r.step("F_u", "load that breaks the bolt", "f_b*A_s", Kind::force, "N");
  r.step("F_b", "load that strips the bolt's threads", "r*f_b*A_b", Kind::force, "N");
  r.step("F_p", "load that strips the plate's threads", "r*Fu_p*A_p", Kind::force, "N");
  r.step("L_b", "engagement for the bolt to break before its threads strip", "A_s/(r*a_b)",
         Kind::length, "mm");
  r.step("L_p", "engagement for the bolt to break before the plate's threads strip",
         "A_s*f_b/(r*Fu_p*a_p)", Kind::length, "mm");
  r.step("L_b2", "the same, the standard's form for the bolt (14)", "2*A_s/a_b", Kind::length,
         "mm");
  r.step("L_p2", "the same, the standard's form for the plate (16)", "2*A_s/a_p*f_b/Fu_p",
         Kind::length, "mm");
  r.step("L_r", "engagement needed, with r", "max(L_b, L_p)", Kind::length, "mm");
  r.step("L_2", "engagement needed, the standard's form", "max(L_b2, L_p2)", Kind::length, "mm");
  for (const char* s : {"a_b", "a_p"}) r.result(s);
  for (const char* s : {"A_b", "A_p", "A_s"}) r.result(s);
  for (const char* s : {"F_u", "F_b", "F_p"}) r.result(s, "kN");
  for (const char* s : {"L_b", "L_p", "L_b2", "L_p2", "L_e"}) r.result(s);
  r.verdict("the bolt breaks before a thread strips, with r", "L_r", "L_e");
  r.verdict("the bolt breaks before a thread strips, the standard's form", "L_2", "L_e");
  r.condition("L_e >= d", "at least one diameter of full thread (common practice, no source)",
              "take a thicker plate or a finer thread");
  r.caution("Countersinks, chamfers and run-out do not count as engaged.");
  r.caution(cautions::railing);
}

WorkingKind thread_stripping_kind() {
  WorkingKind k;
  k.name = "thread-stripping";
  k.title = "Stripping of a thread in a tapped plate";
  k.about =
      "Loads that strip the threads of bolt and plate, and the engagement at which the bolt breaks "
      "first: with a ratio of shear to tensile strength, and in the standard's own form.";
  k.group = "fasteners";
  k.sources = {
      "FED-STD-H28/2B (1991) Table II.B.1, formulas (1b), (2a), (4a), (14), (16) (second-hand)",
      "ISO 965-2 and ASME B1.1-2019: limits of size; ISO 898-1 and ASTM: strengths of grades (as "
      "marked at each)"};
  k.inputs = {
      InputSpec{"size", "size"}.one_of(thread_names()),
      InputSpec{"grade", "class or grade of the bolt"}.one_of(grade_names()).if_known(),
      InputSpec{"Fu_b", "tensile strength of the bolt, in place of its grade", Kind::pressure,
                "N/mm²"}
          .range(above_zero)
          .if_known(),
      InputSpec{"Fu_p", "tensile strength of the plate", Kind::pressure, "N/mm²"}.range(above_zero),
      InputSpec{"LE", "full thread engaged", Kind::length, "mm"}.range(above_zero).if_known(),
      InputSpec{"t", "thickness of the tapped plate, in place of LE", Kind::length, "mm"}
          .range(above_zero)
          .if_known(),
      InputSpec{"t_c", "countersinks of the plate, together", Kind::length, "mm"}.range(0).standard(
          "0", "none"),
      InputSpec{"r", "shear strength / tensile strength", Kind::number, ""}
          .range(above_zero)
          .standard("0.6", "typical; the standard's factor 2 stands for 0.5")};
  k.example = "size=M16 grade=8.8 Fu_p=400MPa LE=18mm";
  k.work = thread_stripping;
  return k;
}

void post_load(Reckoner& r) {
  if (r.given("P_post")) {
    r.step("P_LL", "load of the post", "P_post", Kind::force, "N");
    return;
  }
  need(r, "s", "distance of posts, or give P_post, the load of one; a length");
  r.step("P_LL", "load of the post", "P_0 + w*s", Kind::force, "N");
}

void post_bolts(Reckoner& r) {
  r.step("M", "moment at the base plane", "P_LL*(h - h_b) + P_v*e_v", Kind::moment, "N mm");
  if (r.given("z")) {
    r.step("z_c", "lever arm, couple", "z", Kind::length, "mm");
  } else {
    r.step("z_c", "lever arm, couple: from the tension row to the compression row", "y_t - y_c",
           Kind::length, "mm");
  }
  r.step("T_c", "tension of one bolt, couple model", "M/(n_t*z_c)", Kind::force, "N");
  r.step("T_p", "tension of one bolt, turning about the toe", "M*y_t/(n_t*y_t^2 + n_c*y_c^2)",
         Kind::force, "N");
  r.step("T_p2", "the same in the row at the toe", "M*y_c/(n_t*y_t^2 + n_c*y_c^2)", Kind::force,
         "N");
  r.step("V", "shear of one bolt", "P_LL/(n_t + n_c)", Kind::force, "N");
  r.step("T_cd", "factored tension, couple model", "gamma*T_c", Kind::force, "N");
  r.step("T_pd", "factored tension, turning about the toe", "gamma*T_p", Kind::force, "N");
  r.step("V_d", "factored shear", "gamma*V", Kind::force, "N");
  r.step("M_p", "moment into the panel at its mid-depth", "P_LL*(h + e) + P_v*e_v", Kind::moment,
         "N mm");
  r.step("M_pd", "the same, factored", "gamma*M_p", Kind::moment, "N mm");
}

void post_anchor(Reckoner& r) {
  post_load(r);
  post_bolts(r);
  r.result("P_LL");
  r.result("M", "kN m");
  for (const char* s : {"T_c", "T_p", "T_p2", "V", "T_cd", "T_pd", "V_d"}) r.result(s, "kN");
  r.result("M_p", "kN m");
  r.result("M_pd", "kN m");
  r.condition("y_t > y_c", "the tension row is farther from the toe than the other",
              "change the rows over");
  r.condition("h > h_b", "the load is above the base plane", "enter heights above the deck");
  if (r.given("T_r") && r.given("V_r")) {
    for (const auto& [model, words] :
         {std::pair{"c", "couple model"}, {"p", "turning about the toe"}}) {
      const std::string m = model, i = "i_" + m, T = "T_" + m + "d";
      r.step(i, std::string("interaction, ") + words, "(" + T + "/T_r)^2 + (V_d/V_r)^2",
             Kind::number, "");
      r.result(i);
      r.verdict(std::string("tension and shear of one bolt together, ") + words, r.value(i), 1,
                Kind::number, "");
    }
  } else {
    r.not_checked(
        "tension and shear of one bolt together: needs T_r and V_r (factored strengths of one "
        "bolt)");
  }
  const BoltGrade* grade =
      r.given("size") && r.given("grade") ? find_grade(r.text("grade"), size_of(r).d) : nullptr;
  if (r.given("size") && (r.given("S_p") || (grade && grade->proof > 0))) {
    tell_stress_area(r, tell_size(r));
    tell_strength(r, "f_p", "S_p", "proof stress of the bolts", &BoltGrade::proof);
    r.step("F_proof", "proof load of one bolt", "f_p*A_s", Kind::force, "N");
    r.step("u_c", "factored tension over proof load, couple model", "T_cd/F_proof", Kind::number,
           "");
    r.step("u_p", "the same, turning about the toe", "T_pd/F_proof", Kind::number, "");
    r.result("F_proof", "kN");
    r.result("u_c");
    r.result("u_p");
  } else {
    r.not_checked(
        "tension against the proof load: needs size, and S_p or a grade whose "
        "proof stress is known here");
  }
  r.not_checked("prying of the base plate; the plate, the tapped plate and the laminate around it");
  r.caution(cautions::railing);
  r.caution(cautions::code);
  r.caution(cautions::aid);
}

WorkingKind post_anchor_kind() {
  WorkingKind k;
  k.name = "post-anchor";
  k.title = "Bolts of a rail post, and its moment into the panel";
  k.about =
      "Forces in the bolts of a post by two models, both printed, and the moment that the overhang "
      "gets.";
  k.group = "fasteners";
  k.sources = {
      "AASHTO LRFD 13.8.2: post load 200 lb + 50 lb/ft × spacing (second-hand, SI figures)",
      "Couple: statics (derived); turning about the toe: textbooks to AISC (from memory)",
      "Interaction (T/T_r)² + (V/V_r)² ≤ 1: common elliptical form (from memory)"};
  k.inputs = {
      InputSpec{"s", "distance of posts", Kind::length, "mm"}.range(above_zero).if_known(),
      InputSpec{"P_0", "load at one point", Kind::force, "N"}.range(0).standard(
          "890", "AASHTO LRFD 13.8.2 (second-hand)"),
      InputSpec{"w", "load along the rail", Kind::line_load, "N/mm"}.range(0).standard(
          "0.73", "AASHTO LRFD 13.8.2 (second-hand)"),
      InputSpec{"P_post", "load of one post, in place of both", Kind::force, "N"}
          .range(0)
          .if_known(),
      InputSpec{"h", "height of the load above the deck", Kind::length, "mm"}.range(0),
      InputSpec{"h_b", "height of the base plane above the deck", Kind::length, "mm"}.standard(
          "0", "on the deck"),
      InputSpec{"e", "depth of the panel's mid-depth below the deck", Kind::length, "mm"}.range(0),
      InputSpec{"P_v", "vertical load of the post", Kind::force, "N"}.standard("0", "none"),
      InputSpec{"e_v", "how far outside the bolts' middle it acts", Kind::length, "mm"}.standard(
          "0", "none"),
      InputSpec{"y_t", "tension row from the compressed edge of the plate", Kind::length, "mm"}
          .range(above_zero),
      InputSpec{"y_c", "other row from that edge", Kind::length, "mm"}.range(0),
      InputSpec{"z", "lever arm of the couple, if not between the rows", Kind::length, "mm"}
          .range(above_zero)
          .if_known(),
      InputSpec{"n_t", "bolts in the tension row", Kind::count, ""}.range(1).standard(
          "2", "four bolts in two rows"),
      InputSpec{"n_c", "bolts in the other row", Kind::count, ""}.range(0).standard(
          "2", "four bolts in two rows"),
      InputSpec{"gamma", "load factor", Kind::number, ""}.range(0),
      InputSpec{"T_r", "factored tensile strength of one bolt", Kind::force, "N"}
          .range(above_zero)
          .if_known(),
      InputSpec{"V_r", "factored shear strength of one bolt", Kind::force, "N"}
          .range(above_zero)
          .if_known(),
      InputSpec{"size", "size of the bolts"}.one_of(thread_names()).if_known(),
      InputSpec{"grade", "class or grade of the bolts"}.one_of(grade_names()).if_known(),
      InputSpec{"S_p", "proof stress of the bolts, in place of their grade", Kind::pressure,
                "N/mm²"}
          .range(above_zero)
          .if_known()};
  k.example =
      "s=2m h=1067mm h_b=120mm e=50mm y_t=130mm y_c=30mm gamma=1.75 size=M16 grade=8.8 T_r=60kN "
      "V_r=40kN";
  k.work = post_anchor;
  return k;
}

}  // namespace

std::vector<WorkingKind> fastener_workings() {
  return {post_anchor_kind(), thread_kind(), thread_stripping_kind()};
}

}  // namespace deckquire::workings
