"""The sentences that go with figures about air, doors and the crank, by key.

A result carries a key; whoever prints the result prints the sentence with it.
"""

from __future__ import annotations

ALARM_RULES = "alarm-rules"
MEASURED_TRIAL = "measured-trial"
STRAIN = "strain"
CODE_OFFICIAL = "code-official"
LOCAL_CODE = "local-code"
DRY_TRAP = "dry-trap"

CAUTIONS = {
    ALARM_RULES: (
        "A sum about well-mixed air, and nobody's permission to stay. An alarm rules, whatever "
        "this says; oxygen, carbon monoxide, smoke and heat are not in it."
    ),
    MEASURED_TRIAL: "A flow measured in the finished shelter goes before this figure.",
    STRAIN: (
        "Hard cranking strains the heart. Change people early; whoever feels pain in the chest, "
        "faint or sick stops. A trial with those who will do it goes before this figure."
    ),
    CODE_OFFICIAL: "The code official decides; measure with a spring scale with the air running.",
    LOCAL_CODE: "The local code decides; ask the building office before relying on this.",
    DRY_TRAP: "A trap that has dried out seals nothing and nobody sees it: top it up and look.",
}
