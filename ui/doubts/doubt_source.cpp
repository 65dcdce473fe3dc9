#include "ui/doubts/doubt_source.h"

#include "core/doubts/decisions.h"

namespace ui::doubts {
namespace {

constexpr std::size_t kShotsAtOnce = 20;  // a few milliseconds
constexpr int kQuietMilliseconds = 2500;  // longer than a shot takes in the fast case

}  // namespace

DoubtSource::DoubtSource(core::project::Store& store, bridge::JobRunner& jobs,
                         bridge::FindingsKeeper& findings, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs}, m_findings{findings}, m_gatherer{store} {
    m_timer.setInterval(0);
    connect(&m_timer, &QTimer::timeout, this, &DoubtSource::gatherSome);
    connect(&m_findings, &bridge::FindingsKeeper::changed, this, &DoubtSource::startWhereWanted);
    m_quiet.setSingleShot(true);
    m_quiet.setInterval(kQuietMilliseconds);
    connect(&m_quiet, &QTimer::timeout, this, [this] {
        m_isQuiet = true;
        startWhereWanted();
    });
    m_quiet.start();
    m_listening =
        store.listen([this](const core::project::Store::Change& change) { onStoreChange(change); });
}

DoubtSource::~DoubtSource() = default;

void DoubtSource::setWanted(bool wanted) {
    m_isWanted = wanted;
    startWhereWanted();
}

void DoubtSource::startWhereWanted() {
    if (isWanted() && m_isStale) {
        m_timer.start();
    } else if (!isWanted()) {
        m_timer.stop();
    }
}

void DoubtSource::onPicturesRead(core::project::ShotId shot) {
    m_gatherer.refresh(std::vector{shot});
    noteChange();
}

void DoubtSource::onStoreChange(const core::project::Store::Change& change) {
    if (change.allShots) {
        m_gatherer.refresh();
    } else if (!change.shots.empty()) {
        m_gatherer.refresh(change.shots);
    }
    noteChange();
}

void DoubtSource::noteChange() {
    m_isStale = true;
    m_isQuiet = false;
    m_quiet.start();
    startWhereWanted();
}

void DoubtSource::gatherSome() {
    const auto isDone = m_gatherer.gather(kShotsAtOnce);
    if (!isDone) {
        m_timer.stop();
        Q_EMIT failed(QString::fromStdString(isDone.error().message));
    } else if (isDone.value()) {
        m_timer.stop();
        compute();
    }
}

void DoubtSource::compute() {
    if (m_isComputing) {
        return;  // what comes home is stale and leads here again
    }
    if (const auto noted = core::doubts::noteRefutations(m_store, m_gatherer.material()); !noted) {
        Q_EMIT failed(QString::fromStdString(noted.error().message));
    }
    m_findings.want();
    if (!m_findings.isUpToDate()) {
        return;  // they lead here again
    }
    m_isStale = false;
    if (!m_findings.trouble().isEmpty()) {
        Q_EMIT failed(m_findings.trouble());
        return;
    }
    m_isComputing = true;
    using core::doubts::DoubtsPtr;
    m_jobs.start<DoubtsPtr>(
        tr("Looking for doubtful shots"),
        [material = m_gatherer.material(),
         findings = m_findings.findings()](bridge::JobContext&) -> core::Result<DoubtsPtr> {
            return std::make_shared<const core::doubts::Doubts>(
                core::doubts::findDoubts(material, *findings));
        },
        this,
        [this](const core::Result<DoubtsPtr>& computed) {
            m_isComputing = false;
            if (computed) {
                m_doubts = computed.value();
                Q_EMIT changed();
            } else if (computed.error().code != core::ErrorCode::Cancelled) {
                Q_EMIT failed(QString::fromStdString(computed.error().message));
            }
            startWhereWanted();
        },
        bridge::JobRunner::Priority::Looked);
}

}  // namespace ui::doubts
