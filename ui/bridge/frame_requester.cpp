#include "ui/bridge/frame_requester.h"

#include <functional>
#include <mutex>

namespace ui::bridge {

using core::Result;
using core::media::FramePtr;
using core::timebase::FrameIndex;

class FrameRequester::Mailbox {
public:
    explicit Mailbox(FrameRequester& receiver) : m_receiver{&receiver} {}

    /// Runs the call in the receiver's thread if it lives then.
    void post(std::function<void(FrameRequester&)> call) {
        const std::lock_guard lock{m_mutex};
        if (FrameRequester* receiver = m_receiver) {
            QMetaObject::invokeMethod(
                receiver, [receiver, call = std::move(call)] { call(*receiver); },
                Qt::QueuedConnection);
        }
    }
    void close() {
        const std::lock_guard lock{m_mutex};
        m_receiver = nullptr;
    }

private:
    std::mutex m_mutex;
    FrameRequester* m_receiver;
};

FrameRequester::FrameRequester(core::media::FrameService& service, QObject* parent)
    : QObject{parent}, m_service{service}, m_mailbox{std::make_shared<Mailbox>(*this)} {}

FrameRequester::~FrameRequester() {
    m_mailbox->close();
    closeClips();
}

std::optional<FrameRequester::Clip> FrameRequester::findClip(
    const std::filesystem::path& file) const {
    const auto known = m_clips.find(file);
    return known == m_clips.end() ? std::nullopt : std::optional{known->second};
}

FrameRequester::Clip FrameRequester::openClip(const std::filesystem::path& file,
                                              const core::media::ClipIndex& index) {
    if (const auto known = findClip(file)) {
        return *known;
    }
    return m_clips.emplace(file, m_service.openClip(file, index)).first->second;
}

void FrameRequester::closeClips() {
    ++m_newestPicture;
    ++m_newestCutOuts;
    m_worker.clear();
    m_service.forgetPrepared();
    for (const auto& [file, clip] : m_clips) {
        m_service.closeClip(clip);
    }
    m_clips.clear();
}

quint64 FrameRequester::requestPicture(Clip clip, FrameIndex frame, Direction direction,
                                       QSize fitInto) {
    const quint64 number = ++m_newestPicture;
    m_service.request(clip, frame, direction,
                      [box = m_mailbox, number, fitInto](FrameIndex index, Result<FramePtr> reply) {
                          box->post([=, reply = std::move(reply)](FrameRequester& home) {
                              if (number != home.m_newestPicture) {
                                  return;
                              }
                              if (reply) {
                                  home.convertPicture(number, reply.value(), fitInto);
                              } else if (reply.error().code != core::ErrorCode::Cancelled) {
                                  Q_EMIT home.pictureFailed(
                                      number, index.value,
                                      QString::fromStdString(reply.error().message));
                              }
                          });
                      });
    return number;
}

QImage FrameRequester::pictureNow(Clip clip, FrameIndex frame, QSize fitInto) {
    const FramePtr ready = m_service.ready(clip, frame);
    return ready ? wholePicture(*ready, fitInto) : QImage{};
}

void FrameRequester::convertPicture(quint64 number, const FramePtr& frame, QSize fitInto) {
    m_worker.addUrgent([box = m_mailbox, number, frame, fitInto] {
        box->post([number, index = frame->index().value,
                   picture = wholePicture(*frame, fitInto)](FrameRequester& home) {
            if (number == home.m_newestPicture) {
                Q_EMIT home.pictureReady(number, index, picture);
            }
        });
    });
}

quint64 FrameRequester::requestCutOuts(Clip clip, std::vector<CutOut> cutOuts) {
    const quint64 number = ++m_newestCutOuts;
    m_worker.clear();
    std::map<FrameIndex, CutOut> missing;
    for (const CutOut& cutOut : cutOuts) {
        if (const FramePtr frame = m_service.ready(clip, cutOut.frame)) {
            convertCutOut(number, frame, cutOut);
        } else {
            missing.emplace(cutOut.frame, cutOut);
        }
    }
    if (missing.empty()) {
        return number;
    }
    m_service.forgetPrepared();  // what is looked at comes before what may come next
    const FrameIndex first = missing.begin()->first;
    const FrameIndex last = missing.rbegin()->first;
    const auto wanted = std::make_shared<const std::map<FrameIndex, CutOut>>(std::move(missing));
    m_service.prepare(clip, first, last,
                      [box = m_mailbox, number, wanted](FrameIndex index, Result<FramePtr> reply) {
                          if (!wanted->contains(index)) {
                              return;
                          }
                          box->post([=, reply = std::move(reply)](FrameRequester& home) {
                              if (number != home.m_newestCutOuts) {
                                  return;
                              }
                              if (reply) {
                                  home.convertCutOut(number, reply.value(), wanted->at(index));
                              } else if (reply.error().code != core::ErrorCode::Cancelled) {
                                  Q_EMIT home.cutOutFailed(
                                      number, index.value,
                                      QString::fromStdString(reply.error().message));
                              }
                          });
                      });
    return number;
}

void FrameRequester::convertCutOut(quint64 number, const FramePtr& frame, const CutOut& cutOut) {
    m_worker.add([box = m_mailbox, number, frame, cutOut] {
        box->post([number, index = cutOut.frame.value,
                   picture = cutOutPicture(*frame, cutOut)](FrameRequester& home) {
            if (number == home.m_newestCutOuts) {
                Q_EMIT home.cutOutReady(number, index, picture);
            }
        });
    });
}

void FrameRequester::prepare(Clip clip, FrameIndex first, FrameIndex last) {
    m_service.prepare(clip, first, last);
}

}  // namespace ui::bridge
