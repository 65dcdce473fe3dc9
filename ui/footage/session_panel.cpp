#include "ui/footage/session_panel.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>

#include "core/base/number.h"
#include "ui/models/clip_words.h"

namespace ui::footage {
namespace {

using core::project::BallMarking;

constexpr double kMostTyped = 1e6;

QString shown(const std::optional<double>& value, double scale = 1.0) {
    return value ? models::shortDecimal(*value * scale) : QString{};
}

}  // namespace

SessionPanel::SessionPanel(core::project::Store& store, QWidget* parent)
    : QWidget{parent}, m_store{store}, m_marking{new QComboBox}, m_message{new QLabel} {
    m_marking->addItem(QStringLiteral("three quarters dark"));
    m_marking->addItem(QStringLiteral("half dark"));
    m_marking->addItem(QStringLiteral("band (looks the same after half a turn)"));
    m_marking->addItem(QStringLiteral("band with one dot"));
    m_marking->addItem(QStringLiteral("other"));
    m_marking->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_marking->setMinimumContentsLength(14);
    for (auto& field : m_fields) {
        field = new QLineEdit;
        field->setPlaceholderText(QStringLiteral("not known"));
        connect(field, &QLineEdit::editingFinished, this, &SessionPanel::commit);
    }
    m_fields[kExposure]->setToolTip(
        QStringLiteral("Milliseconds the shutter is open: 1 for 1/1000 s"));
    m_fields[kFieldOfView]->setToolTip(
        QStringLiteral("Horizontal field of view of the camera in degrees"));
    m_fields[kReadout]->setToolTip(QStringLiteral(
        "Milliseconds that a rolling shutter takes from the top row to the bottom row"));
    m_message->setWordWrap(true);
    m_message->hide();
    auto* layout = new QFormLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addRow(QStringLiteral("Ball marking"), m_marking);
    layout->addRow(QStringLiteral("Ball diameter, mm"), m_fields[kDiameter]);
    layout->addRow(QStringLiteral("Exposure, ms"), m_fields[kExposure]);
    layout->addRow(QStringLiteral("Field of view, °"), m_fields[kFieldOfView]);
    layout->addRow(QStringLiteral("Shutter readout, ms"), m_fields[kReadout]);
    layout->addRow(m_message);
    connect(m_marking, &QComboBox::activated, this, &SessionPanel::commit);
    m_listening = m_store.listen([this](const core::project::Store::Change& change) {
        if (change.structure) {
            refresh();
        }
    });
    refresh();
}

void SessionPanel::showSession(std::optional<core::project::SessionId> session) {
    m_session = session;
    refresh();
}

void SessionPanel::refresh() {
    const auto snapshot = m_store.snapshot();
    const auto* session = m_session ? snapshot->sessions.find(*m_session) : nullptr;
    setEnabled(session != nullptr);
    m_message->hide();
    if (session == nullptr) {
        return;
    }
    m_marking->setCurrentIndex(static_cast<int>(session->marking));
    m_fields[kDiameter]->setText(shown(session->ballDiameterMm));
    m_fields[kExposure]->setText(shown(session->exposureSeconds, 1000.0));
    m_fields[kFieldOfView]->setText(shown(session->fieldOfViewDeg));
    m_fields[kReadout]->setText(shown(session->readoutSeconds, 1000.0));
}

void SessionPanel::commit() {
    const auto snapshot = m_store.snapshot();
    const auto* current = m_session ? snapshot->sessions.find(*m_session) : nullptr;
    if (current == nullptr) {
        return;
    }
    std::array<std::optional<double>, kFieldCount> values;
    for (std::size_t i = 0; i < m_fields.size(); ++i) {
        const auto value = core::positiveNumberFrom(m_fields[i]->text().toStdString(), kMostTyped);
        if (!value) {
            m_message->setText(QString::fromStdString(value.error().message));
            m_message->show();
            return;
        }
        values[i] = value.value();
    }
    core::project::Session next = *current;
    next.marking = static_cast<BallMarking>(m_marking->currentIndex());
    // A field that still shows what is stored leaves the stored number as it is, with all its
    // digits.
    auto take = [this](std::optional<double>& stored, Field field, std::optional<double> typed,
                       double scale) {
        if (m_fields[field]->text() != shown(stored, scale)) {
            stored = typed ? std::optional{*typed / scale} : std::nullopt;
        }
    };
    take(next.ballDiameterMm, kDiameter, values[kDiameter], 1.0);
    take(next.exposureSeconds, kExposure, values[kExposure], 1000.0);
    take(next.fieldOfViewDeg, kFieldOfView, values[kFieldOfView], 1.0);
    take(next.readoutSeconds, kReadout, values[kReadout], 1000.0);
    if (next == *current) {
        return;
    }
    const auto done = m_store.changeSession(next);
    if (!done) {
        m_message->setText(QString::fromStdString(done.error().message));
        m_message->show();
    }
}

}  // namespace ui::footage
