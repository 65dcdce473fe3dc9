#include "core/stats/sample/co_moments.h"

#include <string>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/stats/sample/checks.h"

namespace core::stats {

CoMoments coMomentsOf(const PairedValues& pairs) {
    CORE_EXPECTS(!pairs.x.empty() && pairs.x.size() == pairs.y.size());
    CoMoments result{.x = momentsOf(pairs.x), .y = momentsOf(pairs.y)};
    for (std::size_t i = 0; i < pairs.x.size(); ++i) {
        result.sumProducts += (static_cast<long double>(pairs.x[i]) - result.x.mean) *
                              (static_cast<long double>(pairs.y[i]) - result.y.mean);
    }
    return result;
}

Result<void> checkPairs(const PairedValues& pairs, std::string_view what, std::size_t atLeast) {
    if (pairs.x.size() != pairs.y.size()) {
        return fail(ErrorCode::InvalidInput,
                    said("{}: {} values of x and {} of y. They must come in pairs.", saidText(what),
                         pairs.x.size(), pairs.y.size()));
    }
    BOOST_OUTCOME_TRY(checkValues(pairs.x, what, atLeast));
    return checkValues(pairs.y, what, atLeast);
}

}  // namespace core::stats
