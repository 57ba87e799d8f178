"""Beams against a frame analysis library, Table 9-1, and printed shelf lengths."""

import pytest
from casewright.sdk.engineering import beams, hinges, shelves, weights
from casewright.sdk.engineering.units import MM_PER_IN, MPA_PER_PSI, N_PER_LBF
from Pynite import FEModel3D

E_PA, WIDE_M, THICK_M, SPAN_M = 10e9, 0.300, 0.018, 0.8


def _frame(ends: str, load: str, stiffness_pa_m4: float | None = None) -> float:
    """Greatest deflection in mm by finite elements: 500 N/m over the span, or 200 N at its middle."""
    inertia = WIDE_M * THICK_M**3 / 12 if stiffness_pa_m4 is None else stiffness_pa_m4 / E_PA
    model = FEModel3D()
    model.add_node("a", 0, 0, 0)
    model.add_node("b", SPAN_M, 0, 0)
    model.add_material("wood", E_PA, E_PA / 16, 0.3, 0.0)
    model.add_section("board", WIDE_M * THICK_M, 1e-6, inertia, 1e-6)
    model.add_member("1", "a", "b", "wood", "board")
    fixed = ends != "pinned"
    model.def_support("a", True, True, True, True, fixed, fixed)
    model.def_support("b", False, True, True, False, fixed, fixed)
    if load == "uniform":
        model.add_member_dist_load("1", "FY", -500.0, -500.0)
    else:
        model.add_member_pt_load("1", "FY", -200.0, SPAN_M / 2)
    model.analyze()
    return 1000.0 * abs(model.members["1"].deflection("dy", SPAN_M / 2, "Combo 1"))


@pytest.mark.parametrize(
    ("load", "ends"),
    [
        ("uniform", "pinned"), ("uniform", "clamped"), ("centre", "pinned"), ("centre", "clamped"),
    ],
)  # fmt: skip
def test_against_frame_analysis(load, ends):
    total = 500.0 * SPAN_M if load == "uniform" else 200.0
    stiffness = beams.stiffness_n_mm2(300.0, 18.0, 10_000.0)
    ours = beams.bending_deflection_mm(total, 800.0, stiffness, beams.COEFFICIENTS[load, ends])
    assert ours == pytest.approx(_frame(ends, load), rel=1e-6)


def test_nosed_shelf_against_frame_analysis():
    """The composite E I, worked apart by summing 200,000 fibres, put into the frame analysis."""
    nosing = beams.Nosing(20.0, 40.0, 12_000.0)
    step = 40.0 / 200_000
    fibres = [
        ((k + 0.5) * step, ((k + 0.5) * step < 18.0) * 300.0 * 10_000.0 + 20.0 * 12_000.0) for k in range(200_000)
    ]
    axis = sum(y * b for y, b in fibres) / sum(b for _, b in fibres)
    ei = sum((y - axis) ** 2 * b * step for y, b in fibres)
    ours = beams.stiffness_n_mm2(300.0, 18.0, 10_000.0, nosing)
    assert ours == pytest.approx(ei, rel=1e-6)
    sag = beams.sag_mm(400.0, 800.0, ours, "uniform", "pinned", 1.0)
    assert sag == pytest.approx(_frame("pinned", "uniform", ei * 1e-6), rel=1e-6)


def test_a_closed_form():
    """FPL-GTR-282 eq. 9-2, Table 9-1, 5/384: 500 N/m, 0.8 m, 10 GPa, 300 × 18 mm → 1.82899 mm."""
    stiffness = beams.stiffness_n_mm2(300.0, 18.0, 10_000.0)
    assert beams.sag_mm(400.0, 800.0, stiffness, "uniform", "pinned", 1.0) == pytest.approx(1.82899, abs=5e-6)


# AWS 1st ed. (2009) p. 279 (read): E psi, thickness in, load psf → longest adjustable shelf, whole inches
AWS = [
    (950_000, 0.75, 40, 40), (950_000, 0.75, 50, 37), (950_000, 1.0, 40, 53), (950_000, 1.0, 50, 49),
    (1_800_000, 0.75, 40, 49), (1_800_000, 0.75, 50, 46), (1_800_000, 1.0, 40, 66), (1_800_000, 1.0, 50, 61),
]  # fmt: skip


@pytest.mark.parametrize(("psi", "thick", "psf", "cell"), AWS)
def test_shelf_lengths_of_the_woodwork_standard(psi, thick, psf, cell):
    """L/144 without creep; cells match by truncation with an allowance of 0.05 in."""
    depth = 300.0
    load = psf * N_PER_LBF / 304.8**2 * depth
    stiffness = beams.stiffness_n_mm2(depth, thick * MM_PER_IN, psi * MPA_PER_PSI)
    span = beams.longest_span_mm(load, stiffness, "uniform", beams.LIMITS["span-over-144"], creep=1.0) / MM_PER_IN
    assert int(span + 0.05) == cell


def test_thirty_six_inch_shelf():
    """ANSI/KCMA A161.1 5.1: 36 in may sag min(3/16, 1/4) in; 3/4 in ply of 0.95 million psi at 15 psf 0.0682 in, ×2."""
    depth = 300.0
    case = shelves.ShelfCase(
        36 * MM_PER_IN, depth, 0.75 * MM_PER_IN, 950_000 * MPA_PER_PSI,
        15 * N_PER_LBF / 304.8**2 * depth * 36 * MM_PER_IN,
    )  # fmt: skip
    answer = shelves.judge(case)
    assert answer.limit_mm / MM_PER_IN == pytest.approx(0.1875, abs=1e-12)
    assert answer.first_mm / MM_PER_IN == pytest.approx(0.0682, abs=0.00005)
    assert answer.sag_mm / MM_PER_IN == pytest.approx(0.136, abs=0.0005)
    assert answer.passes


def test_the_cabinet_standards_limit():
    """ANSI/KCMA A161.1 5.1: 1/16 in per foot of span, never over 1/4 in."""
    assert beams.LIMITS["sixteenth-per-foot"].at(304.8) == pytest.approx(MM_PER_IN / 16)
    assert beams.LIMITS["sixteenth-per-foot"].at(3000.0) == pytest.approx(MM_PER_IN / 4)


def test_cabinet_standard_loads():
    """ANSI/KCMA A161.1: 15 psf = 718.2 Pa; door 65 lb × 10 in = 650 in·lb."""
    assert pytest.approx(718.2, abs=0.5) == weights.LIGHT_SHELF_PA
    assert hinges.racking_moment_n_mm() / N_PER_LBF / MM_PER_IN == pytest.approx(650.0, rel=1e-12)


def test_a_cantilever_with_a_load_at_its_end():
    """K29, as printed: 200 N at the end of 0.8 m, 10 GPa, 300 × 18 mm bends 23.4111 mm; a frame library agrees."""
    stiffness = beams.Section(300.0, 18.0, 10_000.0).stiffness_n_mm2
    bent = beams.bending_deflection_mm(200.0, 800.0, stiffness, beams.CANTILEVER["end"][0])
    assert bent == pytest.approx(23.4111, abs=5e-5)
    model = FEModel3D()
    model.add_node("a", 0, 0, 0)
    model.add_node("b", SPAN_M, 0, 0)
    model.add_material("wood", E_PA, E_PA / 16, 0.3, 0.0)
    model.add_section("board", WIDE_M * THICK_M, 1e-6, WIDE_M * THICK_M**3 / 12, 1e-6)
    model.add_member("1", "a", "b", "wood", "board")
    model.def_support("a", True, True, True, True, True, True)
    model.add_node_load("b", "FY", -200.0)
    model.analyze()
    assert bent == pytest.approx(-1000.0 * model.nodes["b"].DY["Combo 1"], rel=1e-6)


@pytest.mark.parametrize(("tabulated", "true"), [(1.58, 1.738), (1.82, 2.002), (1.30, 1.430)])
def test_a_boards_modulus_without_shear(tabulated, true):
    """Yellow-poplar (K1), northern red oak, Engelmann spruce: Table 5-3b (FPL-GTR-282, 2021) and 10 % more, Mpsi."""
    assert tabulated * beams.TRUE_MODULUS == pytest.approx(true, abs=0.0005)


def test_the_share_of_shear_is_what_the_tabulated_modulus_counts():
    """K30: centre load, simple, span 14 times the depth, E/G 16: shear is 0.0980 of bending, which is why 10 % more."""
    section = beams.Section(50.0, 50.0, 10_000.0)
    bent = beams.bending_deflection_mm(100.0, 700.0, section.stiffness_n_mm2, beams.COEFFICIENTS["centre", "pinned"])
    shear = beams.shear_deflection_mm(100.0, 700.0, section, 1.0 / 4.0)  # k_s of Table 9-1
    assert shear / bent == pytest.approx(0.0980, abs=1e-4)


def test_an_overhang_gives_by_both():
    """Uniform: W L³/(8 E I) and W L/(2 G A'), Table 9-1, worked by hand: 100 N over 200 mm of 60 × 20, 12 GPa."""
    given = beams.overhang_mm(100.0, 200.0, beams.Section(60.0, 20.0, 12_000.0))
    assert given == pytest.approx(100 * 200**3 / (8 * 12_000 * 40_000) + 100 * 200 / (2 * 750 * 1000), rel=1e-9)
