// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <string>
#include <string_view>

// The WebAssembly border: bytes in, bytes out, no C++ object is held by the page.
namespace railwright::wasm {

// Answers one request. `request` is a JSON object, the answer is JSON: {"ok": ...} or {"error": {"code", "place", "text"}}. Never throws.
//  plan      {job, effort: "quick"|"full"}            -> {plan, findings: [{code, severity, where, text}]}
//  drawing   {job, effort: "sketch"|"quick"|"full"}    -> what the drawing needs, see drawing.h; a sketch, for the moving hand, has no totals
//  totals    {job, effort}                             -> what the fence comes to, see drawing.h
//  why       {job, effort, figure}                     -> {figure, title, value, formula, filled, inputs: [{name, value, figure}], source, row, where}
//  remedies  {job, effort, code, where}                -> [{text, price, posts, job}]: what cures a finding, the job with the change made
//  check     {job}                                     -> {sound, job (as written), findings}
//  start     {choices, walk, grid}                     -> {job, findings}       see start.h
//  sheets    {job, paper: "letter"|"a4", effort}       -> [{id, title, svg}]
//  tables    {job, effort}                             -> [{id, title, csv}]
//  stakes    {job, effort, format: "csv"|"gpx"|"geojson"|"kml"|"dxf"} -> {text}  where the posts stand, as a file; error export.no_origin
//  spacing_start {job, effort}                         -> {wanted}            begins the search for the best spacing; see spacing.h
//  spacing_step  {work, take}                          -> {known, cost, bound, work, limit, done, choice}
//  survey    {notes, adjust: "compass"|"least-squares"|"none", units} -> {report, findings}  a traverse or level notes reduced; formats/survey_report.h
//  catalogue {}                                        -> the shipped rows
//  words     {language}                                -> the sentences
// Each takes `language`; without it the job's own. plan, drawing, sheets and tables take `spacing`, a choice that spacing_step gave for this very job.
// The plan last made is kept: asking for its sheets, a why or a remedy with the same job, effort and spacing makes it only once.
std::string answer(std::string_view method, std::string_view request);

// Told now and then while a plan is searched for: {stage: "cutting"|"spacing", pipe, cost, bound, work, limit}, the best so far and what nothing can beat.
using Listener = std::function<void(const std::string& progress)>;
void listen(Listener told);

}  // namespace railwright::wasm
