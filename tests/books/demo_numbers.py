"""The numbers of the demo scenario: where each stands in its book, and what it is.

All of it is invented with the scenario. In a path ``*`` stands for any key; a list is written
with commas between its items.
"""

from __future__ import annotations

ABOUT = """
f2 book.edition | 2031-07-01
f2 book.announced | 2031-02-03
f2 book.ships | 2031-03-17
f2 book.predecessor | f1
f1 book.edition | 2031-07-01
f1 book.ships | 2026-06-01
f1 book.last_order | 2031-09-30
p1 book.edition | 2031-07-01
p1 book.announced | 2031-02-03
p1 book.ships | 2031-03-03
l4 book.edition | 2031-07-01
l4 book.announced | 2031-02-03
l4 book.samples | yes
l4 book.ships | 2031-05-12
f2 parts.dimm-128.ships | 2031-06-02
l4 parts.dimm-128.ships | 2031-06-02
"""

FORM = """
p1 chassis.width | 210 mm
p1 chassis.depth | 300 mm
p1 chassis.height | 42 mm
p1 chassis.side_by_side | 2
p1 chassis.tray_height | 1 U
p1 chassis.mass_empty | 4.1 kg
p1 chassis.mass_most | 6.8 kg
f2 chassis.height | 2 U
f2 chassis.depth | 760 mm
f2 chassis.rails_from | 620 mm
f2 chassis.rails_to | 880 mm
f2 chassis.mass_empty | 15 kg
f2 chassis.mass_most | 31 kg
l4 chassis.height | 4 U
l4 chassis.depth | 880 mm
l4 chassis.mass_empty | 31 kg
l4 chassis.mass_most | 66 kg
f1 chassis.height | 2 U
f1 chassis.depth | 740 mm
f1 chassis.mass_empty | 15 kg
f1 chassis.mass_most | 29 kg
"""

PROCESSORS = """
p1 processors.counts | 1
p1 parts.cpu-16.cores | 16
p1 parts.cpu-16.tdp | 65 W
f2 processors.counts | 1, 2
f2 processors.identical | yes
f2 parts.cpu-16.cores | 16
f2 parts.cpu-16.tdp | 150 W
f2 parts.cpu-24.cores | 24
f2 parts.cpu-24.tdp | 185 W
f2 parts.cpu-32.cores | 32
f2 parts.cpu-32.tdp | 225 W
f2 parts.cpu-48.cores | 48
f2 parts.cpu-48.tdp | 300 W
f2 parts.cpu-*.lanes | 80
f2 parts.cpu-*.lane_generation | PCIe 5.0
l4 processors.counts | 2
l4 parts.cpu-32.cores | 32
l4 parts.cpu-32.tdp | 300 W
f1 processors.counts | 1, 2
f1 processors.identical | yes
f1 parts.cpu-16.cores | 16
f1 parts.cpu-16.tdp | 150 W
* power.processor_conversion | 0.9
"""

MEMORY = """
* memory.one_size | yes
f2 memory.same_everywhere | yes
p1 places.M1.channels | 6
p1 places.M1.per_channel | 1
p1 places.M1.counts | 1, 2, 4, 6
p1 parts.dimm-16.size | 16 GB
p1 parts.dimm-32.size | 32 GB
p1 parts.dimm-48.size | 48 GB
p1 parts.dimm-*.generation | DDR5
p1 memory.speeds.0.speed | 4800 MT/s
f2 places.M*.channels | 8
f2 places.M*.per_channel | 2
f2 places.M*.counts | 1, 2, 4, 6, 8, 12, 16
f2 parts.dimm-16.size | 16 GB
f2 parts.dimm-32.size | 32 GB
f2 parts.dimm-64.size | 64 GB
f2 parts.dimm-96.size | 96 GB
f2 parts.dimm-128.size | 128 GB
f2 parts.dimm-*.generation | DDR5
f2 memory.speeds.0.per_channel | 1
f2 memory.speeds.0.speed | 5600 MT/s
f2 memory.speeds.1.per_channel | 2
f2 memory.speeds.1.size | 128 GB
f2 memory.speeds.1.speed | 4400 MT/s
f2 memory.speeds.2.per_channel | 2
f2 memory.speeds.2.speed | 4800 MT/s
l4 places.M*.channels | 12
l4 places.M*.per_channel | 1
l4 places.M*.counts | 12
l4 parts.dimm-64.size | 64 GB
l4 parts.dimm-96.size | 96 GB
l4 parts.dimm-128.size | 128 GB
l4 parts.dimm-*.generation | DDR5
l4 memory.speeds.0.speed | 5600 MT/s
f1 places.M*.channels | 6
f1 places.M*.per_channel | 2
f1 places.M*.counts | 1, 2, 4, 6, 12
f1 parts.dimm-16.size | 16 GB
f1 parts.dimm-32.size | 32 GB
f1 parts.dimm-*.generation | DDR4
f1 memory.speeds.0.speed | 3200 MT/s
"""

ZONES = """
f2 places.A.takes | N8, S8, F4
f2 places.B.takes | N8, S8
f2 places.C.takes | N8h, S8, display
f2 places.A.controllers | R1a, R1b
f2 places.B.controllers | R1a, R1b
f2 places.C.controllers | R3a, R3b
f2 parts.N8.bays | 8
f2 parts.N8.lanes_per_bay | 4
f2 parts.N8h.bays | 8
f2 parts.N8h.lanes_per_bay | 2
f2 parts.S8.bays | 8
f2 parts.S8.link_rate | 12 Gb/s
f2 parts.F4.bays | 4
f2 parts.F4.board_lanes | 4
f2 parts.F4.link_rate | 6 Gb/s
f2 parts.F4.filled | yes
f2 parts.F4.hot_swap | no
f2 links.module-1.lanes | 16
f2 links.riser-1.lanes | 32
f2 links.zone-a.lanes | 32
f2 links.riser-3.lanes | 32
f2 links.zone-b.lanes | 32
f2 links.module-2-or-zone-c.lanes | 16
f2 links.module-2-or-zone-c.feeds | O2, C
p1 parts.D2.bays | 2
p1 parts.boot-pair.media | 2
p1 parts.sata-960.capacity | 960 GB
p1 parts.sata-1920.capacity | 1920 GB
l4 parts.E8.bays | 8
f1 parts.S8.bays | 8
"""

CONTROLLERS = """
f2 parts.C16.drives_most | 16
f2 parts.C16.lanes | 8
f2 parts.C16.length | 167.65 mm
f2 parts.C16.connectors | 2
f2 parts.C16.connector_lanes | 8
f2 parts.C16.at_most | 2
f2 parts.C16.flush.size | 8 GB
f2 parts.C16.flush.rate | 0.25 GB/s
f2 parts.C16.flush.power | 11 W
f2 parts.pack.capacitance | 18 F
f2 parts.pack.full | 9.0 V
f2 parts.pack.empty | 5.0 V
f2 parts.pack.usable | 85 %
f2 parts.pack.life | 5 years
f2 parts.pack.life_temperature | 45 °C
f2 parts.pack.halved_per | 10 K
f2 parts.pack.floor_temperature | 25 °C
f2 places.K1.serves | R1a, R1b
f2 places.K3.serves | R3a, R3b
f2 parts.X8.at_most | 1
f2 parts.X8.lanes | 8
f2 parts.X8.length | 167.65 mm
f2 parts.X8.power | 14 W
f2 parts.X8.external.chains | 2
f2 parts.X8.external.enclosures | 2
f2 parts.X8.external.drives | 24
f2 firmware.minimum.0.at_least | 2.4
f2 firmware.minimum.0.systems | reedbed_10, reedbed_11
f1 parts.S8i.drives_most | 8
f1 parts.S16i.drives_most | 16
f1 parts.S*i.length | 167.65 mm
"""

SLOTS = """
f2 places.R*.lanes | 16
f2 places.R*.power | 75 W
f2 places.R*.height | 111.15 mm
f2 places.R*a.length | 312 mm
f2 places.R*b.length | 167.65 mm
f2 places.R1a.neighbour | R1b
f2 places.R3a.neighbour | R3b
f2 parts.accel-sw.power | 75 W
f2 parts.accel-sw.slots | 1
f2 parts.accel-sw.length | 167.65 mm
f2 parts.accel-dw.power | 150 W
f2 parts.accel-dw.slots | 2
f2 parts.accel-dw.length | 312 mm
f2 parts.accel-dw.at_most | 2
f2 parts.accel-dw.brings.cable-kit | 1
f2 places.O*.lanes | 16
p1 places.R1.lanes | 16
p1 places.R1.length | 167.65 mm
p1 places.R1.power | 25 W
p1 places.O1.lanes | 8
l4 places.X*.positions | 4
l4 places.X*.slots | 2
l4 parts.accel-75.power | 75 W
l4 parts.accel-350.power | 350 W
f1 places.R*.lanes | 16
f1 places.R*.generation | PCIe 4.0
f1 places.R*.length | 312 mm
f1 places.R*.power | 75 W
"""

PORTS = """
f2 parts.net-25.speed | 25 Gb/s
f2 parts.net-25.chips | 1
f2 parts.net-25.ports.0.count | 2
f2 chassis.ports.0.type | usb
f2 chassis.ports.0.scope | rear
f2 chassis.ports.0.count | 3
f2 chassis.ports.0.speed | 5 Gb/s
f2 chassis.ports.1.type | video
f2 chassis.ports.1.count | 1
f2 chassis.ports.2.type | usb
f2 chassis.ports.2.scope | inside
f2 chassis.ports.2.count | 1
f2 chassis.ports.2.speed | 5 Gb/s
f2 chassis.ports.3.type | management
f2 chassis.ports.3.speed | 1 Gb/s
f2 parts.display.ports.0.type | usb
f2 parts.display.ports.0.scope | front
f2 parts.display.ports.0.count | 2
f2 parts.display.ports.0.speed | 5 Gb/s
f2 parts.display.ports.1.type | video
f2 parts.boot-module.media | 2
f2 parts.boot-module.mirrored | yes
f2 parts.boot-module.capacity | 240 GB
f2 parts.boot-module.endurance | 320 TBW
f2 parts.usb-stick.mirrored | no
p1 parts.cartridge.capacity | 2 TB
p1 places.MEDIA.ports.0.speed | 0.48 Gb/s
p1 places.MEDIA.ports.0.rate | 38 MB/s
p1 places.MEDIA.ports.1.speed | 5 Gb/s
"""

WATTS = """
f2 power.base | 45 W
f2 parts.dimm-16.power | 5 W
f2 parts.dimm-32.power | 7 W
f2 parts.dimm-64.power | 9 W
f2 parts.dimm-96.power | 10 W
f2 parts.dimm-128.power | 13 W
f2 parts.fast-*.power | 20 W
f2 parts.sas-*.power | 12 W
f2 parts.sata-*.power | 8 W
f2 parts.C16.power | 16 W
f2 parts.net-25.power | 18 W
f2 parts.fan.power | 22 W
l4 power.base | 120 W
l4 parts.dimm-*.power | 9 W
l4 parts.fast-*.power | 20 W
l4 parts.net-25.power | 18 W
l4 parts.fan.power | 60 W
p1 power.base | 18 W
p1 parts.dimm-*.power | 6 W
p1 parts.sata-*.power | 9 W
p1 parts.net-10.power | 18 W
p1 parts.fan.power | 6 W
p1 parts.card-25.power | 25 W
f1 power.base | 42 W
f1 parts.dimm-*.power | 7 W
f1 parts.sas-*.power | 12 W
f1 parts.S*i.power | 16 W
f1 parts.net-10.power | 18 W
f1 parts.fan.power | 20 W
"""

SUPPLIES = """
f2 power.lines.low.volts_from | 100 V
f2 power.lines.low.volts_to | 127 V
f2 power.lines.high.volts_from | 200 V
f2 power.lines.high.volts_to | 240 V
f2 places.PS.fitted.0.count | 2
f2 places.PS.fitted.0.legal | 2
f2 places.PS.fitted.0.redundant | 1
f2 places.PS.identical | yes
f2 parts.ps-800.ratings.low | 800 W
f2 parts.ps-800.ratings.high | 800 W
f2 parts.ps-1300.ratings.low | 1000 W
f2 parts.ps-1300.ratings.high | 1300 W
f2 parts.ps-2000.ratings.low | 1000 W
f2 parts.ps-2000.ratings.high | 2000 W
f2 parts.ps-800.efficiency.10 % | .90
f2 parts.ps-800.efficiency.20 % | .94
f2 parts.ps-800.efficiency.50 % | .96
f2 parts.ps-800.efficiency.100 % | .91
f2 parts.ps-1300.efficiency.10 % | .87
f2 parts.ps-1300.efficiency.20 % | .91
f2 parts.ps-1300.efficiency.50 % | .945
f2 parts.ps-1300.efficiency.100 % | .915
f2 parts.ps-2000.efficiency.10 % | .88
f2 parts.ps-2000.efficiency.20 % | .92
f2 parts.ps-2000.efficiency.50 % | .95
f2 parts.ps-2000.efficiency.100 % | .92
f2 parts.ps-*.power_factor | 0.98
f2 parts.ps-800.inlet | C14
f2 parts.ps-800.inlet_current | 10 A
f2 parts.ps-1300.inlet | C20
f2 parts.ps-1300.inlet_current | 16 A
f2 parts.ps-2000.inlet | C20
f2 parts.ps-2000.inlet_current | 16 A
f2 parts.ps-*.inrush | 35 A
f2 parts.ps-*.inrush_time | 5 ms
f2 parts.ps-*.leakage | 1.2 mA
f2 parts.ps-*.hold_up | 12 ms
l4 power.lines.high.volts_from | 200 V
l4 power.lines.high.volts_to | 240 V
l4 places.PS.fitted.0.count | 4
l4 places.PS.fitted.0.legal | 2
l4 places.PS.feeds.A | 2
l4 places.PS.feeds.B | 2
l4 parts.ps-2700.ratings.high | 2700 W
l4 parts.ps-2700.efficiency.* | .94
p1 places.PS.fitted.0.count | 2
p1 power.lines.ac.volts_from | 100 V
p1 power.lines.ac.volts_to | 240 V
p1 parts.ps-ac.ratings.ac | 240 W
p1 parts.ps-dc.ratings.dc | 240 W
p1 parts.ps-*.efficiency.* | 92 %
f1 places.PS.fitted.0.count | 2
f1 places.PS.identical | yes
f1 parts.ps-750.ratings.high | 750 W
f1 parts.ps-750.ratings.low | 750 W
f1 parts.ps-1100.ratings.high | 1100 W
f1 parts.ps-1100.ratings.low | 1000 W
f1 parts.ps-*.efficiency.* | .91
"""

AIR = """
f2 places.F.fitted.0.count | 4
f2 places.F.fitted.0.when | count(processor) == 1
f2 places.F.fitted.1.count | 6
f2 places.F.fitted.1.when | count(processor) == 2
f2 parts.fan.flow | 32 CFM
f2 air.rise | 15 K
f2 air.inlet_limits.0.limit | 30 °C
f2 air.inlet_limits.1.limit | 35 °C
f2 air.derating.above | 900 m
f2 air.derating.by | 1 K
f2 air.derating.per | 300 m
f2 air.derating.up_to | 3,050 m
f2 air.noise_idle | 48 dB(A)
f2 air.noise_full | 63 dB(A)
f2 air.noise_distance | 1 m
f2 air.cover_off | 90 s
f2 air.grille | 520 cm²
f2 air.grille_open | 0.62
l4 places.F.fitted.0.count | 8
l4 parts.fan.flow | 75 CFM
l4 air.rise | 18 K
l4 air.inlet_limits.0.limit | 30 °C
l4 air.inlet_limits.1.limit | 33 °C
l4 air.inlet_limits.2.limit | 35 °C
l4 air.inlet_limits.3.limit | 34 °C
l4 air.inlet_limits.4.limit | 35 °C
l4 air.derating.above | 900 m
l4 air.derating.by | 1 K
l4 air.derating.per | 300 m
p1 places.F.fitted.0.count | 3
p1 air.inlet_limits.0.limit | 55 °C
p1 air.derating.above | 900 m
p1 air.derating.by | 1 K
p1 air.derating.per | 175 m
f1 places.F.fitted.0.count | 4
f1 places.F.fitted.1.count | 6
f1 parts.fan.flow | 30 CFM
f1 air.rise | 15 K
f1 air.inlet_limits.0.limit | 35 °C
f1 air.derating.above | 900 m
f1 air.derating.by | 1 K
f1 air.derating.per | 300 m
"""

SERVICE = """
p1 interlocks.cover-opened.after | 5 s
f2 lights.module.lasts | 20 min
f2 service.waits.heat sink | 5 min
f2 service.order | cords, cover, air guide, risers, fan wall, board
f2 firmware.update_order | management, board, controller, drives
* chassis.failure_rate | 0.6 %
* parts.dimm-*.failure_rate | 0.2 %
* parts.fan.failure_rate | 1.0 %
* parts.ps-*.failure_rate | 1.2 %
f2 parts.fast-*.failure_rate | 0.8 %
f2 parts.sas-*.failure_rate | 0.8 %
f2 parts.sata-*.failure_rate | 0.8 %
f2 parts.C16.failure_rate | 0.5 %
f2 parts.X8.failure_rate | 0.5 %
f2 parts.pack.failure_rate | 2 %
l4 parts.fast-*.failure_rate | 0.8 %
p1 parts.sata-*.failure_rate | 0.8 %
f1 parts.sas-*.failure_rate | 0.8 %
f1 parts.S*i.failure_rate | 0.5 %
"""

TABLES = (
    ABOUT,
    FORM,
    PROCESSORS,
    MEMORY,
    ZONES,
    CONTROLLERS,
    SLOTS,
    PORTS,
    WATTS,
    SUPPLIES,
    AIR,
    SERVICE,
)


def numbers() -> list[tuple[str, str, str]]:
    """Return book, path and value of every number; a ``*`` for the book stands for all four."""
    rows = []
    for line in "".join(TABLES).strip().splitlines():
        where, _, value = line.partition(" | ")
        book, _, path = where.partition(" ")
        books = ("f2", "f1", "l4", "p1") if book == "*" else (book,)
        rows += [(each, path, value) for each in books if value]
    return rows
