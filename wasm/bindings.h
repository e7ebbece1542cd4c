// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

// The WebAssembly border: bytes in, bytes out, no C++ object is held by the page.
namespace railwright::wasm {

// Answers one request. `request` is a JSON object, the answer is JSON: {"ok": ...} or {"error": {"code", "place", "text"}}. Never throws.
//  plan      {job, effort: "quick"|"full"}            -> {plan, findings: [text]}
//  check     {job}                                     -> {sound, job (as written), findings}
//  sheets    {job, paper, language}                    -> [{id, title, svg}]
//  tables    {job, language}                           -> [{id, title, csv}]
//  walk      {text, ground, choices}                   -> {job, findings}       a survey or track file becomes a job
//  cut       {pieces, sticks, ...}                     -> as `railwright cut --json`
//  catalogue {}                                        -> the shipped rows
//  words     {language}                                -> the sentences
std::string answer(std::string_view method, std::string_view request);

}  // namespace railwright::wasm
