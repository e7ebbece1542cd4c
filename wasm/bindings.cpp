// SPDX-License-Identifier: MIT
#include "wasm/bindings.h"

#include <map>
#include <nlohmann/json.hpp>

#include "data/data.h"
#include "data/shipped.h"
#include "engine/job/read.h"
#include "engine/plan/plan.h"
#include "engine/remedy/remedy.h"
#include "engine/why/why.h"
#include "formats/stakes.h"
#include "formats/survey_report.h"
#include "sheets/sheets.h"
#include "sheets/why_text.h"
#include "wasm/drawing.h"
#include "wasm/spacing.h"
#include "wasm/start.h"
#include "words/words.h"

namespace railwright::wasm {
namespace {

using Json = nlohmann::ordered_json;

// The border is the one place with state: what is embedded and read once, who listens, the plan last made, the search for the best spacing.
const job::Catalogue& shipped() {
  static const job::Catalogue catalogue = data::shipped();
  return catalogue;
}

// Read once for each language: parsing them anew would cost a drag more than its plan. A language without words is English.
const sheets::Words& words_of(const std::string& language) {
  static const sheets::Words english = sheets::Words::parse(words::catalogue_json("en")).value_or(sheets::Words());
  static std::map<std::string, sheets::Words> others;
  if (language == "en") return english;
  if (const auto known = others.find(language); known != others.end()) return known->second;
  const auto own = sheets::Words::parse(words::catalogue_json(language));
  if (!own) return english;
  sheets::Words words = english;
  words.add(*own);
  return others.emplace(language, std::move(words)).first->second;
}

std::string refusal(const Error& error, const sheets::Words& words) {
  const Json detail = {{"code", error.code}, {"place", error.place}, {"text", sheets::error_text(words, error)}};
  return Json{{"error", detail}}.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string reply(Json&& content) { return Json{{"ok", std::move(content)}}.dump(-1, ' ', false, Json::error_handler_t::replace); }

Json texts(const Findings& findings, const sheets::Words& words, const measure::LengthFormat& format) {
  static constexpr const char* kSeverity[] = {"note", "warning", "stop"};
  Json rows = Json::array();
  for (const Finding& finding : findings) {
    rows.push_back({{"code", finding.code},
                    {"severity", kSeverity[static_cast<int>(finding.severity)]},
                    {"where", finding.where},
                    {"text", sheets::finding_text(words, finding, format)}});
  }
  return rows;
}

std::string language_of(const Json& request, const job::Job& job) { return request.value("language", job.language); }

struct Opened {
  job::ReadJob read;
  const sheets::Words& words;
};

Opened open(const Json& request) {
  job::ReadJob read = job::read_job(request.value("job", Json::object()).dump());
  const sheets::Words& words = words_of(language_of(request, read.job));
  return {std::move(read), words};
}

std::string unsound(const Opened& opened) {
  const Json detail = {{"code", "job.unsound"}, {"place", ""}, {"findings", texts(opened.read.findings, opened.words, {})}};
  return Json{{"error", detail}}.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Effort effort_of(const Json& request) { return request.value("effort", std::string("quick")) == "full" ? Effort::full : Effort::quick; }

// Told while a long answer is worked out; empty: nobody listens.
Listener& listener() {
  static Listener told;
  return told;
}

OnProgress telling() {
  if (!listener()) return {};
  return [](const Progress& now) {
    const Json told = {{"stage", now.stage == Progress::Stage::spacing ? "spacing" : "cutting"},
                       {"pipe", now.pipe},
                       {"cost", measure::decimal_text(now.cost)},
                       {"bound", measure::decimal_text(now.bound)},
                       {"work", now.work},
                       {"limit", now.limit}};
    listener()(told.dump(-1, ' ', false, Json::error_handler_t::replace));
  };
}

// The plan last made and what it was made for: sheets, a why or a remedy ask about the plan that is on the screen.
struct Kept {
  std::string asked;
  Plan plan;
};

const Plan& plan_of(const Json& request, const job::Job& job) {
  static Kept kept;
  const Json choice_text = request.value("spacing", Json());
  std::string asked = request.value("effort", std::string("quick")) + choice_text.dump() + request.value("job", Json::object()).dump();
  if (asked == kept.asked) return kept.plan;
  const std::optional<spacing::Choice> choice = choice_of(choice_text);
  kept.plan = make_plan(job, shipped(), effort_of(request), choice ? &*choice : nullptr, telling());
  kept.asked = std::move(asked);
  return kept.plan;
}

std::string answer_plan(const Json& request) {
  const Opened opened = open(request);
  if (!opened.read.sound()) return unsound(opened);
  const Plan& plan = plan_of(request, opened.read.job);
  // The plan's own JSON is passed on as text: parsing it only to print it again would double the cost of a drag.
  const Json findings = texts(plan.findings, opened.words, sheets::length_format(opened.read.job.units));
  return R"({"ok":{"plan":)" + plan_json(opened.read.job, plan) + R"(,"findings":)" + findings.dump(-1, ' ', false, Json::error_handler_t::replace) + "}}";
}

std::string answer_why(const Json& request) {
  const Opened opened = open(request);
  if (!opened.read.sound()) return unsound(opened);
  const Plan& plan = plan_of(request, opened.read.job);
  const auto answer = why::why(opened.read.job, plan, request.value("figure", std::string()));
  if (!answer) return refusal(answer.error(), opened.words);
  const sheets::WhyText text = sheets::why_text(opened.read.job, opened.words, *answer);
  Json inputs = Json::array();
  for (const sheets::WhyText::Input& input : text.inputs) inputs.push_back({{"name", input.name}, {"value", input.value}, {"figure", input.figure}});
  return reply({{"figure", text.figure},
                {"title", text.title},
                {"value", text.value},
                {"formula", text.formula},
                {"filled", text.filled},
                {"source", text.source},
                {"row", text.row},
                {"inputs", std::move(inputs)},
                {"where", text.where}});
}

std::string answer_remedies(const Json& request) {
  const Opened opened = open(request);
  if (!opened.read.sound()) return unsound(opened);
  const Plan& plan = plan_of(request, opened.read.job);
  Json rows = Json::array();
  for (const Finding& finding : plan.findings) {
    if (finding.code != request.value("code", std::string()) || finding.where != request.value("where", std::string())) continue;
    for (const remedy::Remedy& found : remedy::remedies(opened.read.job, shipped(), plan, finding)) {
      rows.push_back({{"text", sheets::remedy_text(opened.words, found.code, found.values, sheets::length_format(opened.read.job.units))},
                      {"price", measure::decimal_text(found.price)},
                      {"posts", found.posts},
                      {"job", Json::parse(job::write_job(found.job))}});
    }
    break;
  }
  return reply(std::move(rows));
}

std::string answer_check(const Json& request) {
  const Opened opened = open(request);
  const Json written = opened.read.sound() ? Json::parse(job::write_job(opened.read.job)) : Json();
  return reply({{"sound", opened.read.sound()}, {"job", written}, {"findings", texts(opened.read.findings, opened.words, {})}});
}

std::string answer_drawing(const Json& request) {
  const Opened opened = open(request);
  if (!opened.read.sound()) return unsound(opened);
  if (request.value("effort", std::string("quick")) == "sketch") {
    const std::optional<spacing::Choice> choice = choice_of(request.value("spacing", Json()));
    return reply(drawing(opened.read.job, make_plan(opened.read.job, shipped(), Effort::sketch, choice ? &*choice : nullptr)));
  }
  const Plan& plan = plan_of(request, opened.read.job);
  Json shown = drawing(opened.read.job, plan);
  shown["totals"] = totals(plan);
  return reply(std::move(shown));
}

std::string answer_totals(const Json& request) {
  const Opened opened = open(request);
  if (!opened.read.sound()) return unsound(opened);
  return reply(totals(plan_of(request, opened.read.job)));
}

std::string answer_start(const Json& request) {
  const sheets::Words& words = words_of(request.value("language", std::string("en")));
  const auto started = start(request, shipped());
  if (!started) return refusal(started.error(), words);
  const Json written = Json::parse(job::write_job(started->job));
  return reply({{"job", written}, {"findings", texts(started->findings, words, sheets::length_format(started->job.units))}});
}

std::string answer_sheets(const Json& request) {
  const Opened opened = open(request);
  if (!opened.read.sound()) return unsound(opened);
  const Plan& plan = plan_of(request, opened.read.job);
  const sheets::Paper paper = request.value("paper", std::string("letter")) == "a4" ? sheets::Paper::a4 : sheets::Paper::letter;
  Json pages = Json::array();
  for (const sheets::Sheet& sheet : sheets::draw_sheets(opened.read.job, plan, opened.words, paper)) {
    pages.push_back({{"id", sheet.id}, {"title", sheet.title}, {"svg", sheet.svg}});
  }
  return reply(std::move(pages));
}

std::string answer_tables(const Json& request) {
  const Opened opened = open(request);
  if (!opened.read.sound()) return unsound(opened);
  const Plan& plan = plan_of(request, opened.read.job);
  Json rows = Json::array();
  for (const sheets::Table& table : sheets::tables(opened.read.job, plan, opened.words)) {
    rows.push_back({{"id", table.id}, {"title", table.title}, {"csv", sheets::to_csv(table)}});
  }
  return reply(std::move(rows));
}

std::string answer_stakes(const Json& request) {
  const Opened opened = open(request);
  if (!opened.read.sound()) return unsound(opened);
  const std::string ending = request.value("format", std::string("csv"));
  const auto format = formats::stake_format("." + ending);
  if (!format) return refusal({"export.format", {}, {{"text", ending}}}, opened.words);
  const Plan& plan = plan_of(request, opened.read.job);
  const auto text = formats::stake_file(*format, opened.read.job, plan.layout, plan.stakes);
  if (!text) return refusal(text.error(), opened.words);
  return reply({{"text", *text}});
}

// The search that goes on between two requests.
SpacingSearch& spacing_search() {
  static SpacingSearch search;
  return search;
}

std::string answer_spacing_start(const Json& request) {
  const Opened opened = open(request);
  if (!opened.read.sound()) return unsound(opened);
  return reply(spacing_search().start(opened.read.job, shipped(), effort_of(request)));
}

std::string answer_spacing_step(const Json& request) {
  return reply(spacing_search().step(request.value("work", std::int64_t{20}), request.value("take", false)));
}

std::string answer_survey(const Json& request) {
  const sheets::Words& words = words_of(request.value("language", std::string("en")));
  const bool metric = request.value("units", std::string()) == "metric";
  const std::string adjust = request.value("adjust", std::string("compass"));
  formats::WalkOptions options;
  if (metric) options.unit = measure::BareNumber::metres;
  options.adjustment = adjust == "none"            ? ground::Adjustment::none
                       : adjust == "least-squares" ? ground::Adjustment::least_squares
                                                   : ground::Adjustment::compass;
  const auto report = formats::survey_report(request.value("notes", std::string()), options);
  if (!report) return refusal(report.error(), words);
  const auto units = metric ? job::UnitSystem::metric : job::UnitSystem::feet_inches;
  return reply({{"report", Json::parse(formats::survey_json(*report))}, {"findings", texts(report->findings, words, sheets::length_format(units))}});
}

std::string answer_catalogue(const Json&) {
  Json files = Json::object();
  for (const std::string_view name : data::names()) {
    files[std::string(name)] = Json::parse(data::default_file(name), nullptr, false);
  }
  return reply(std::move(files));
}

std::string answer_words(const Json& request) {
  Json sentences = Json::object();
  const sheets::Words& words = words_of(request.value("language", std::string("en")));
  for (const auto& [key, text] : words.all()) sentences[key] = text;
  return reply(std::move(sentences));
}

struct Method {
  const char* name;
  std::string (*run)(const Json& request);
};
constexpr Method kMethods[] = {{"plan", answer_plan},
                               {"drawing", answer_drawing},
                               {"totals", answer_totals},
                               {"why", answer_why},
                               {"remedies", answer_remedies},
                               {"check", answer_check},
                               {"start", answer_start},
                               {"sheets", answer_sheets},
                               {"tables", answer_tables},
                               {"stakes", answer_stakes},
                               {"survey", answer_survey},
                               {"words", answer_words},
                               {"catalogue", answer_catalogue},
                               {"spacing_start", answer_spacing_start},
                               {"spacing_step", answer_spacing_step}};

}  // namespace

void listen(Listener told) { listener() = std::move(told); }

std::string answer(std::string_view method, std::string_view request) {
  try {
    const Json parsed = Json::parse(request, nullptr, false);
    if (!parsed.is_object()) return refusal({"request.not_json", std::string(method), {}}, words_of("en"));
    for (const Method& known : kMethods) {
      if (method == known.name) return known.run(parsed);
    }
    return refusal({"request.unknown", std::string(method), {{"word", std::string(method)}}}, words_of("en"));
  } catch (const std::exception& trouble) {
    // A request of the wrong shape, or memory running out: the border is the one place where exceptions end.
    return refusal({"request.failed", std::string(method), {{"text", std::string(trouble.what())}}}, words_of("en"));
  }
}

}  // namespace railwright::wasm
