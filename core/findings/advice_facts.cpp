#include "core/findings/advice_facts.h"

#include "core/findings/settings.h"
#include "core/report/summary.h"

namespace core::findings {

Result<plan::AdviceFacts> adviceFacts(const project::Snapshot& snapshot) {
    plan::AdviceFacts facts;
    BOOST_OUTCOME_TRY(step, noticeableStep(snapshot));
    if (step) {
        facts.noticeableStepRpm = step->rpm;
    }
    BOOST_OUTCOME_TRY(summary, report::summarise(snapshot));
    facts.measuredScatterRpm = report::measuredScatterRpm(summary);
    return facts;
}

}  // namespace core::findings
