#pragma once

#include "core/findings/agreement.h"
#include "core/project/snapshot.h"

namespace core::findings {

/// Agreement of methods and readers over all readings of shots that are not set aside.
AgreementFindings findAgreement(const project::Snapshot& snapshot);

}  // namespace core::findings
