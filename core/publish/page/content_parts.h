#pragma once

#include "core/publish/page/content.h"

/// The sections of a publication, one a function. Internal to this module.
namespace core::publish {

[[nodiscard]] Section rankedSection(const ContentInput& input);
[[nodiscard]] Section chartsSection(const ContentInput& input);
[[nodiscard]] Section stripsSection(const ContentInput& input);
[[nodiscard]] Section pairsSection(const ContentInput& input);
/// Hitters, new against worn, attributes, sessions, drift, agreement.
[[nodiscard]] Section moreSection(const ContentInput& input);
[[nodiscard]] Section methodSection(const ContentInput& input);
/// One section a filming day would be long: a table of them all.
[[nodiscard]] Section filmingSection(const ContentInput& input);
[[nodiscard]] Section asideSection(const ContentInput& input);
[[nodiscard]] Section cautionsSection();

/// The figures of this name, "ranked" and "ranked-2" and so on; none where there is nothing to
/// show.
[[nodiscard]] std::vector<Block> figuresNamed(const ContentInput& input, const std::string& name);

}  // namespace core::publish
