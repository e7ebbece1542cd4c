// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

// The WebAssembly border: bytes in, bytes out, no C++ object is held by the page.
namespace railwright::wasm {

// Answers one request. `request` is a JSON object, the answer is JSON: {"ok": ...} or {"error": {"code", "place", "text"}}. Never throws.
//  plan      {job, effort: "quick"|"full"}            -> {plan, findings: [{code, severity, where, text}]}
//  drawing   {job}                                     -> what a drag needs, see drawing.h
//  check     {job}                                     -> {sound, job (as written), findings}
//  start     {choices, walk, grid}                     -> {job, findings}       see start.h
//  sheets    {job, paper: "letter"|"a4", effort}       -> [{id, title, svg}]
//  tables    {job, effort}                             -> [{id, title, csv}]
//  stakes    {job, format: "csv"|"gpx"|"geojson"|"kml"|"dxf"} -> {name, text}   where the posts stand, as a file; error export.no_origin
//  spacing_start {job, effort}                         -> {wanted}            begins the search for the best spacing; see spacing.h
//  spacing_step  {work, take}                          -> {known, cost, bound, work, limit, done, choice}
//  catalogue {}                                        -> the shipped rows
//  words     {language}                                -> the sentences
// Each takes `language`; without it the job's own. plan, drawing, sheets and tables take `spacing`, a choice that spacing_step gave for this very job.
std::string answer(std::string_view method, std::string_view request);

}  // namespace railwright::wasm
