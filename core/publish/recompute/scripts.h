#pragma once

#include <string_view>

/// The scripts that are published with the tables: they compute every published number anew from
/// the CSV files alone. Texts of recompute.R and recompute.py beside this header. Internal to this
/// module.
namespace core::publish {

extern const std::string_view kRecomputeR;
extern const std::string_view kRecomputePython;

}  // namespace core::publish
