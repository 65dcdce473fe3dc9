#pragma once

// These and not result.hpp, which brings in three times as many lines for policies that nothing
// here uses.
#include <boost/outcome/basic_result.hpp>
#include <boost/outcome/policy/throw_bad_result_access.hpp>
#include <boost/outcome/try.hpp>
#include <string>
#include <utility>

#include "core/base/error.h"

namespace core {

/// A T, or the Error that says why there is none. Not to be discarded; pass failures up with
/// BOOST_OUTCOME_TRY(value, call()).
template <class T>
using Result = boost::outcome_v2::basic_result<
    T, Error, boost::outcome_v2::policy::throw_bad_result_access<Error, void>>;

/// Ends a function that returns a Result with a failure: `return fail(ErrorCode::NotFound, "…");`.
[[nodiscard]] inline auto fail(ErrorCode code, std::string message) {
    return boost::outcome_v2::failure(Error{code, std::move(message)});
}

/// The success value of a Result<void>.
[[nodiscard]] inline auto ok() {
    return boost::outcome_v2::success();
}

}  // namespace core
