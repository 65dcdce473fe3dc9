#include "ui/footage/assign_panel.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "core/intake/assign_shots.h"
#include "ui/style/hold_back.h"
#include "ui/style/rank.h"

namespace ui::footage {
namespace {

QComboBox* namesBox(const QString& placeholder, const QString& accessibleName) {
    auto* box = new QComboBox;
    box->setEditable(true);
    box->setInsertPolicy(QComboBox::NoInsert);
    box->lineEdit()->setPlaceholderText(placeholder);
    box->setAccessibleName(accessibleName);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(14);
    return box;
}

template <class Named>
void fillNames(QComboBox* box, const Named& table) {
    const QString typed = box->currentText();
    const QSignalBlocker quiet{box};
    box->clear();
    for (const auto& entity : table) {
        box->addItem(QString::fromStdString(entity.name));
    }
    box->setCurrentText(typed);
}

}  // namespace

AssignPanel::AssignPanel(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_implement{namesBox(tr("name of the implement"), tr("Implement"))},
      m_hitter{namesBox(tr("name of the hitter"), tr("Hitter"))},
      m_assign{new QPushButton{tr("Assign")}},
      m_message{new QLabel} {
    m_message->setWordWrap(true);
    m_implement->setToolTip(tr("What strikes the ball. A new name adds an implement."));
    m_hitter->setToolTip(tr("Who swings it. A new name adds a hitter."));
    auto* layout = new QFormLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addRow(tr("Implement"), m_implement);
    layout->addRow(tr("Hitter"), m_hitter);
    layout->addRow(m_assign);
    layout->addRow(m_message);
    m_message->hide();
    connect(m_assign, &QPushButton::clicked, this, &AssignPanel::assign);
    style::holdBack({m_assign}, QString::fromStdString(store.readOnlyReason()));
    connect(m_implement->lineEdit(), &QLineEdit::returnPressed, this, &AssignPanel::assign);
    connect(m_hitter->lineEdit(), &QLineEdit::returnPressed, this, &AssignPanel::assign);
    m_listening = m_store.listen([this](const core::project::Store::Change& change) {
        if (change.structure) {
            refreshNames();
        }
    });
    refreshNames();
    m_implement->setCurrentText({});
    m_hitter->setCurrentText({});
    setShots({}, {});
}

void AssignPanel::refreshNames() {
    const auto snapshot = m_store.snapshot();
    fillNames(m_implement, snapshot->implements);
    fillNames(m_hitter, snapshot->hitters);
}

void AssignPanel::setShots(std::vector<core::project::ShotId> shots, const QString& what) {
    m_shots = std::move(shots);
    m_assign->setEnabled(!m_shots.empty());
    m_assign->setText(m_shots.empty() ? tr("Assign (choose clips or shots first)")
                                      : tr("Assign %1").arg(what));
}

void AssignPanel::assign() {
    const auto done = core::intake::assignShots(
        m_store, m_shots,
        {m_implement->currentText().toStdString(), m_hitter->currentText().toStdString()});
    m_message->setText(done ? QString{} : QString::fromStdString(done.error().message));
    m_message->setVisible(!done);
}

void AssignPanel::setLeads(bool leads) {
    style::setRank(m_assign, leads ? style::Rank::Primary : style::Rank::Secondary);
}

}  // namespace ui::footage
