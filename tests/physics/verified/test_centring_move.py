"""The move that centres, sag of the shaft and the joint face: hand working and search over a grid."""

import math

import numpy as np
import pytest

from fitwright.physics.fits.centring import Vector, centre_from_gaps
from fitwright.physics.fits.centring_move import (
    DirectionNames,
    ShaftPosition,
    centring_move,
    corrected_for_sag,
    down_in_engine,
    gaps_after_move,
    sag_correction,
)
from fitwright.physics.fits.joint_face import JointFaceLimits, face_tilt, move_with_joint_face
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.numerics.half_planes import (
    clip_polygon,
    nearest_to_origin,
    polygon_area,
    polygon_centroid,
)
from tests.support.compare import absolute, verified

MM = 1e-3
COMPASS = np.radians([0.0, 90.0, 180.0, 270.0])
NAMES = DirectionNames("the deck", "the exhaust side", "the sump", "the inlet side")


def test_move_is_said_by_parts_of_the_engine_and_drawn_as_it_hangs():
    move = centring_move(Vector(-0.030 * MM, -0.105 * MM), NAMES, attitude=math.pi)
    assert [part.towards for part in move.parts] == ["the deck", "the exhaust side"]
    verified([part.distance / MM for part in move.parts], [0.105, 0.030], by="hand working", tolerance=1e-12)
    # Upside down the deck is below and right and left change sides.
    verified(
        [move.as_hung.right / MM, move.as_hung.up / MM],
        [-0.030, -0.105],
        by="hand working: half a turn",
        tolerance=1e-12,
    )


def test_move_can_aim_at_an_offset_and_names_nothing_where_there_is_none():
    aimed = centring_move(Vector(0.0, -0.10 * MM), NAMES, aim=Vector(0.0, 0.01 * MM))
    verified(aimed.vector.up / MM, 0.11, by="hand working", tolerance=1e-12)
    assert centring_move(Vector(0.0, 0.0), NAMES).parts == ()


def test_gaps_after_the_move_are_centred():
    gaps = np.array([0.08, 0.15, 0.29, 0.21]) * MM
    found = centre_from_gaps(gaps, station_angles=COMPASS, shaft_angles=0.0, covariance=np.eye(4) * 1e-12)
    after = gaps_after_move(gaps, station_angles=COMPASS, move=centring_move(found.offset, NAMES).vector)
    again = centre_from_gaps(after, station_angles=COMPASS, shaft_angles=0.0, covariance=np.eye(4) * 1e-12)
    assert again.offset.magnitude < 1e-15
    by = "hand working: each pair of opposite gaps becomes equal"
    verified(after / MM, [0.185, 0.18, 0.185, 0.18], by=by, tolerance=1e-9)


def test_upright_engine_at_rest_reads_the_housing_too_high_by_the_lift():
    sag = sag_correction(0.055 * MM)
    verified(
        sag.correction.up / MM, -0.7 * 0.0275, by="hand working: 0.7 of half the clearance", tolerance=1e-12
    )
    low, high = (sag_correction(0.055 * MM, running_lift=lift).correction.up / MM for lift in (0.9, 0.5))
    verified([-0.105 + low, -0.105 + high], [-0.12975, -0.11875], by="hand working", tolerance=1e-12)
    deviation = math.sqrt(sag.covariance[1, 1]) / MM
    verified(
        deviation, 0.0275 * 0.4 / math.sqrt(12.0), by="a share from 0.5 to 0.9, all alike", tolerance=1e-12
    )


@pytest.mark.parametrize(
    "position,attitude,up",
    [
        (ShaftPosition.AT_REST, 0.0, -0.5 + 0.15),
        (ShaftPosition.LIFTED, 0.0, 0.5 + 0.15),
        (ShaftPosition.IN_THE_MIDDLE, 0.0, 0.15),
        # Upside down the shaft rests against the upper shells: the opposite of at rest, upright.
        (ShaftPosition.AT_REST, math.pi, 0.5 + 0.15),
        (ShaftPosition.LIFTED, math.pi, -0.5 + 0.15),
    ],
)
def test_position_and_attitude_of_the_shaft(position, attitude, up):
    sag = sag_correction(1.0, position=position, attitude=attitude)
    verified(sag.correction.up, up, by="hand working in halves of the clearance", tolerance=1e-12)
    assert abs(sag.correction.right) < 1e-12


def test_engine_on_its_side_lets_the_shaft_rest_sideways():
    down = down_in_engine(0.5 * math.pi)
    verified(
        [down.right, down.up],
        [1.0, 0.0],
        by="turned clockwise, the right side is below",
        tolerance=absolute(1e-12),
    )


def test_rest_and_lift_average_to_the_middle():
    rest, lifted, middle = (sag_correction(0.06 * MM, position=p).correction.up for p in ShaftPosition)
    verified(0.5 * (rest + lifted) / MM, middle / MM, by="symmetry", tolerance=1e-12)


def test_sag_widens_the_offset():
    found = centre_from_gaps(
        np.full(4, 0.18 * MM), station_angles=COMPASS, shaft_angles=0.0, covariance=np.eye(4) * 25e-12
    )
    sag = sag_correction(0.055 * MM, clearance_uncertainty=0.002 * MM)
    moved = corrected_for_sag(found, sag)
    verified(
        moved.offset_covariance / MM**2,
        (found.offset_covariance + sag.covariance) / MM**2,
        by="sum of covariances",
        tolerance=absolute(1e-12),
    )
    with pytest.raises(OutOfDomainError, match="diametral_clearance"):
        sag_correction(-1.0)


def searched(offset, heights, positions, limits, turn):
    """Try a grid of moves and turns; the least offset among those that keep the face level."""
    ups = np.linspace(-0.2, 0.2, 401) * MM
    turns = np.linspace(-turn, turn, 201) if turn else np.zeros(1)
    up, w = np.meshgrid(ups, turns, indexing="ij")
    after = heights[:, None, None] + up - w * positions[:, None, None]
    level = np.abs(after).max(axis=0) <= limits.step * (1 + 1e-9)
    for i in range(len(heights)):
        for j in range(i):
            apart = abs(positions[i] - positions[j])
            level &= np.abs(after[i] - after[j]) <= limits.tilt * apart + 1e-12 if apart else level
    if not level.any():
        return None
    return np.abs(offset.up + up[level]).min(), up[level].min(), up[level].max()


@pytest.mark.parametrize(
    "heights,tilt,turn",
    [
        ((-0.03, -0.03), math.inf, 0.0),
        ((-0.05, 0.01), math.inf, 0.0),
        ((-0.05, 0.01), 0.0003, 0.001),
        ((-0.06, 0.06), math.inf, 0.001),
        ((-0.06, 0.06), math.inf, 0.0),
        ((-0.06, 0.00, 0.05), 0.0004, 0.0008),
    ],
)
def test_joint_face_against_a_search(heights, tilt, turn):
    h = np.array(heights) * MM
    x = np.linspace(-0.05, 0.05, len(heights))
    limits = JointFaceLimits(step=0.04 * MM, tilt=tilt)
    offset = Vector(-0.02 * MM, -0.10 * MM)
    found = move_with_joint_face(offset, 0.05 * MM, heights=h, positions=x, limits=limits, largest_turn=turn)
    want = searched(offset, h, x, limits, turn)
    if want is None:
        assert not found.possible
        assert found.best_move is None
        return
    got = np.array([found.offset_left, found.lowest_up, found.highest_up]) / MM
    verified(got, np.array(want) / MM, by="grid of moves and turns", tolerance=absolute(0.0021))
    assert found.possible == (found.offset_left <= 0.05 * MM)
    after = h + found.best_move.up - found.best_turn * x
    assert np.abs(after).max() <= limits.step * (1 + 1e-9)
    verified(np.abs(after).max() / MM, found.step_left / MM, by="the face after the move", tolerance=1e-9)


def test_joint_face_that_forbids_centring_says_so():
    found = move_with_joint_face(
        Vector(0.0, -0.10 * MM),
        0.05 * MM,
        heights=[0.0, 0.0],
        positions=[-0.04, 0.04],
        limits=JointFaceLimits(step=0.03 * MM),
    )
    assert not found.possible
    verified(
        [found.highest_up / MM, found.offset_left / MM, found.up_for_centring[0] / MM],
        [0.03, 0.07, 0.05],
        by="hand working",
        tolerance=1e-9,
    )


def test_tilt_of_a_face():
    verified(face_tilt([0.02 * MM, 0.06 * MM], [-0.05, 0.05]), 0.0004, by="hand working", tolerance=1e-12)
    with pytest.raises(OutOfDomainError, match="two or more different places"):
        face_tilt([0.0, 0.0], [0.1, 0.1])


def test_polygons():
    square = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    cut = clip_polygon(square, [1.0, 1.0], 1.5)
    verified(polygon_area(cut), 1.0 - 0.125, by="square less a triangle", tolerance=1e-12)
    centre = (0.5 - 0.125 * (1.0 - 0.5 / 3.0)) / 0.875
    verified(polygon_centroid(cut), [centre, centre], by="moments of square and triangle", tolerance=1e-12)
    assert clip_polygon(square, [1.0, 0.0], -1.0).size == 0
    verified(nearest_to_origin(square + np.array([1.0, 2.0])), math.sqrt(5.0), by="corner", tolerance=1e-12)
    assert nearest_to_origin(square - 0.5) == 0.0
    verified(
        polygon_centroid([[0.0, 0.0], [2.0, 0.0]]),
        [1.0, 0.0],
        by="middle of a line",
        tolerance=absolute(1e-12),
    )
