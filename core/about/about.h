#pragma once

#include <string>
#include <vector>

/// What program this is, to be copied into a report of a fault.
namespace core::about {

/// "Turnmark 0.6.0", the commit that it was built from ("not known" outside a repository, followed
/// by "with changes" where files differed from it), then the libraries that its numbers rest on
/// with the versions that are in use, one line each. Not translated.
[[nodiscard]] std::vector<std::string> aboutLines();

}  // namespace core::about
