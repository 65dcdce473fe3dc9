#include "core/publish/export.h"

#include "core/base/version.h"
#include "core/publish/origin.h"
#include "core/report/export.h"

namespace core::publish {

Result<Written> exportProject(const project::Snapshot& snapshot,
                              const std::filesystem::path& folder, WriteRule foreign) {
    BOOST_OUTCOME_TRY(summary, report::summarise(snapshot));
    BOOST_OUTCOME_TRY(output, OutputFolder::open(folder, std::move(foreign)));
    BOOST_OUTCOME_TRY(output.put("shots.csv", report::shotsCsv(snapshot)));
    BOOST_OUTCOME_TRY(output.put("shots.json", report::shotsJson(snapshot)));
    BOOST_OUTCOME_TRY(output.put("summary.csv", report::summaryCsv(summary)));
    BOOST_OUTCOME_TRY(output.put("implements.csv", report::implementsCsv(summary)));
    BOOST_OUTCOME_TRY(output.put("summary.json", report::summaryJson(summary)));
    return output.commit(programName());
}

}  // namespace core::publish
