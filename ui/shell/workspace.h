#pragma once

#include <memory>

#include "core/media/frames/frame_service.h"
#include "core/project/store.h"
#include "ui/bridge/frame_requester.h"

namespace ui::shell {

/// An open project and what shows its footage. Members in the order in which they must live: the
/// requester before the service, the service before the store is gone.
struct Workspace {
    std::unique_ptr<core::project::Store> store;
    std::unique_ptr<core::media::FrameService> frames;
    std::unique_ptr<bridge::FrameRequester> pictures;
};

}  // namespace ui::shell
