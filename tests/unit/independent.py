"""A second road from a car sheet to every number of the car report, sharing no code with the package.

Plain floats, one car at a time, scans and halving in place of closed forms and solvers: written from the
equations in the chassis texts and the tyre paper, not from the package. Slow on purpose.

Sources: roll and load transfer, Barton & Fieldhouse, Automotive Chassis Engineering (2018), ch. 5; tyre,
Bakker, Nyborg & Pacejka, SAE 870421 (1987), and Pacejka, Tyre and Vehicle Dynamics, 2nd ed. (2006), Table
A3.1 without its shifts, coefficients of both second-hand; falling grip with Fiala's brush curve (from
memory).
"""

import math

from tests.unit.independent_bar import DEG, OTHER, G, bar_wheel_rate_in_roll, halve, number, top_of


def side_force_2006(tangent, load, scale):
    """The book's formula for a positive slip angle, its signs turned; alike to both sides."""
    over = load / 4000 - 1
    peak = (0.990 - 0.145 * over) * load * scale
    slope = 14.95 * 4000 * math.sin(2 * math.atan(load / (2.130 * 4000)))
    x = slope / 1.193 / peak * tangent
    bent = x + (1.003 + 0.537 * over) * (x - math.atan(x))
    return peak * math.sin(1.193 * math.atan(bent))


class End:
    """One axle: plain numbers in SI."""

    def __init__(self, sheet, name):
        table, share = sheet[name], number(sheet["front_weight_share"])
        self.mass = number(sheet["mass"]) * (share if name == "front" else 1 - share)
        self.track, self.unsprung, self.unsprung_height, self.roll_centre = (
            number(table[key])
            for key in ("track", "unsprung_mass", "unsprung_cg_height", "roll_centre_height")
        )
        self.sprung = self.mass - self.unsprung
        self.spring = number(table["spring_rate"]) * table["spring_motion_ratio"] ** 2
        self.bar = bar_wheel_rate_in_roll(table.get("bar"))
        self.tyre = number(table["tyre_vertical_rate"]) if "tyre_vertical_rate" in table else math.inf
        self.stop = number(table["bump_stop_rate"]) if "bump_stop_rate" in table else 0.0
        self.travel = number(table["bump_travel"]) if "bump_travel" in table else math.inf
        self.camber = number(table.get("camber", "0 deg"))
        self.lost = 1 - table["camber_recovery"] if "camber_recovery" in table else 0.0

    def roll(self, rate):
        """Roll stiffness of the axle from a rate at each wheel: two forces at half the track."""
        return 2 * rate * (self.track / 2) ** 2

    def suspension_moment(self, angle):
        """Moment through springs, bar and bump stop at a roll of body against axle."""
        stop = self.stop_force(angle * self.track / 2) * self.track / 2
        return self.roll(self.spring + self.bar) * angle + stop

    def stop_force(self, apart):
        """Of the outside wheel's stop; both springs together give way to it, for the weight stays."""
        if apart <= self.travel or not self.stop:
            return 0.0
        # The body rises by `up`: both springs ease by 2 k up, the stop pushes with the rest of the travel,
        # 2 k up = s (apart - travel - up).
        up = self.stop * (apart - self.travel) / (2 * self.spring + self.stop)
        return self.stop * (apart - self.travel - up)

    def suspension_angle(self, body):
        """The part of the body's roll that the suspension takes; the tyres take the rest."""
        if self.tyre == math.inf:
            return body
        tyre = self.roll(self.tyre)
        free = body / (1 + self.roll(self.spring + self.bar) / tyre)
        if not self.stop or free * self.track / 2 <= self.travel:
            return max(free, 0)
        return halve(lambda angle: angle + self.suspension_moment(angle) / tyre < body, 0, max(body, 0), 60)

    def elastic(self, body):
        return self.suspension_moment(self.suspension_angle(body))

    def stiffness(self):
        """With the tyres in series, below the bump stop."""
        suspension = self.roll(self.spring + self.bar)
        return suspension if self.tyre == math.inf else 1 / (1 / suspension + 1 / self.roll(self.tyre))


class SecondRoad:
    """Everything the car report says, by the other road."""

    def __init__(self, sheet, driven=False):
        self.sheet = sheet
        self.ends = {name: End(self.sheet, name) for name in ("front", "rear")}
        front, rear = self.ends.values()
        self.mass, height = number(self.sheet["mass"]), number(self.sheet["cg_height"])
        below = sum(end.unsprung * end.unsprung_height for end in self.ends.values())
        self.height = (self.mass * height - below) / (front.sprung + rear.sprung)
        torsion = self.sheet.get("chassis_torsion")
        self.give = 1 / number(torsion) if torsion else 0.0
        self.tyre, self.driven = self.sheet["tyre"], driven
        self.corners = {}

    def lever(self, end):
        return end.sprung * (self.height - end.roll_centre)

    def cap(self, end, a):
        """Moment through the springs at which the inside wheel's load is gone."""
        through_others = a * (end.sprung * end.roll_centre + end.unsprung * end.unsprung_height)
        return end.mass * G / 2 * end.track - through_others

    def moment(self, end, body, a):
        return min(end.elastic(body), self.cap(end, a))

    def unbalanced(self, front_angle, a):
        """Moment left over at the rear once the front, rolled this far, and the chassis have their part."""
        front, rear = self.ends.values()
        passed = self.lever(front) * (a + G * front_angle) - self.moment(front, front_angle, a)
        rear_angle = front_angle - self.give * passed
        return self.lever(rear) * (a + G * rear_angle) + passed - self.moment(rear, rear_angle, a), rear_angle

    def angles(self, a):
        """Front and rear roll of the body, the first balance met from upright; None: over it goes."""
        if a not in self.corners:
            self.corners[a] = self._angles(a)
        return self.corners[a]

    def _angles(self, a):
        step = 0.25 * DEG
        left = [self.unbalanced(i * step, a)[0] for i in range(3)]
        for i in range(1, 240):  # to 60 degrees
            low, high = (i - 1) * step, (i + 1) * step
            if min(left) > 0 and left[0] > left[1] < left[2]:  # a dip between the steps: look closer
                high = self.bottom(low, high, a)
                left[2] = self.unbalanced(high, a)[0]
            if left[2] <= 0 or left[1] <= 0:
                found = halve(lambda angle: self.unbalanced(angle, a)[0] > 0, low, high, 50)
                return found, self.unbalanced(found, a)[1]
            left = [left[1], left[2], self.unbalanced((i + 2) * step, a)[0]]
        return None

    def bottom(self, low, high, a):
        for _ in range(60):
            one, two = low + (high - low) / 3, high - (high - low) / 3
            low, high = (low, two) if self.unbalanced(one, a)[0] < self.unbalanced(two, a)[0] else (one, high)
        return (low + high) / 2

    def body_roll(self, a):
        front, rear = self.ends.values()
        one, two = self.angles(a)
        return (front.sprung * one + rear.sprung * two) / (front.sprung + rear.sprung)

    def loads(self, name, a):
        """Elastic, links, unsprung, inside and outside load, roll of this end, lifted."""
        end, body = self.ends[name], self.angles(a)[0 if name == "front" else 1]
        elastic = self.moment(end, body, a) / end.track
        links = end.sprung * a * end.roll_centre / end.track
        unsprung = end.unsprung * a * end.unsprung_height / end.track
        half, gain = end.mass * G / 2, elastic + links + unsprung
        return elastic, links, unsprung, max(half - gain, 0.0), half + gain, body, half - gain < 1e-6 * half

    def rollover(self):
        a = 0.2 * G
        while self.angles(a) is not None:
            a += 0.1 * G
        return halve(lambda a: self.angles(a) is not None, a - 0.1 * G, a, 40)

    # --- the tyres -------------------------------------------------------------------------------

    def side_force(self, slip, load, lean):
        scale = self.tyre.get("grip_scale", 1.0)
        if self.tyre["curve"] == "falling grip":
            drop = number(self.tyre["grip_drop_per_kN"]) / 1000
            peak = scale * max(self.tyre["peak_grip"] - drop * load, 0) * load
            if peak <= 0:
                return 0.0
            x = min(max(number(self.tyre["cornering_stiffness"]) * math.tan(slip) / (3 * peak), -1), 1)
            return math.copysign(peak * (1 - (1 - abs(x)) ** 3), x)
        if load < 1e-3:
            return 0.0
        if self.tyre["curve"] == "magic formula 2006":
            return side_force_2006(math.tan(slip), load, scale)
        kn, slip, lean = load / 1000, slip / DEG, lean / DEG
        d = (-22.1 * kn**2 + 1011 * kn) * scale
        b = 1078 * math.sin(1.82 * math.atan(0.208 * kn)) / (1.30 * d) * (1 - 0.022 * abs(lean))
        e = -0.354 * kn + 0.707
        x = b * (slip + 0.028 * lean)
        return d * math.sin(1.30 * math.atan(x - e * (x - math.atan(x)))) + 14.8 * kn * lean

    def pair(self, name, a):
        """Side force of an axle as a function of slip."""
        end, (*_, inside, outside, body, _lifted) = self.ends[name], self.loads(name, a)
        rolled = end.lost * body
        return lambda slip: (
            self.side_force(slip, outside, -end.camber - rolled)
            + self.side_force(slip, inside, end.camber - rolled)
        )

    def beside_drive(self, name, a, other_slip):
        """The same with the drive force that holds the speed taken off by friction ellipse."""
        plain, part = self.pair(name, a), self.driven_parts()[name]
        if not part:
            return plain
        largest, end, other = top_of(plain)[0], self.ends[name], self.ends[OTHER[name]]

        def force(slip):
            drive = part * (end.mass * a * math.sin(slip) + other.mass * a * math.sin(other_slip))
            return plain(slip) * math.sqrt(max(1 - (drive / largest) ** 2, 0))

        return force

    def slip(self, name, a, other_slip=0.0):
        """Slip angle at which an end gives what the corner asks of it; its best one when it cannot."""
        force, need = self.beside_drive(name, a, other_slip), self.ends[name].mass * a
        top, at = top_of(force)
        if need > top:
            return at, False
        return halve(lambda slip: force(slip) < need, -10 * DEG, at, 46), True

    def slips(self, a):
        """Slip angle of each end, each from the other's until they settle."""
        found = dict.fromkeys(self.ends, (0.0, True))
        for _ in range(9 if self.driven else 1):
            found = {name: self.slip(name, a, found[OTHER[name]][0]) for name in found}
        return found

    def driven_parts(self):
        if not self.driven:
            return {"front": 0.0, "rear": 0.0}
        share = number(self.sheet["front_weight_share"])
        front = {"front": 1.0, "rear": 0.0, "all": share}[self.sheet["drive"]]
        return {"front": front, "rear": 1 - front}

    def holds(self, name, a):
        """Whether an end can supply its part of the corner."""
        return self.slips(a)[name][1]

    def limit(self, name, over):
        """First lateral acceleration that an end cannot hold; None when the car rolls over first."""
        a, last = 0.1 * G, over * (1 - 1e-9)
        while self.holds(name, min(a, last)):
            a += 0.1 * G
            if a >= last + 0.1 * G:
                return None
        return halve(lambda a: self.holds(name, a), a - 0.1 * G, min(a, last), 28)

    def understeer_gradient(self, at=0.3 * G, step=0.001 * G):
        angles = []
        for a in (at - step, at + step):
            (front, held), (rear, holds) = self.slips(a).values()
            if not (held and holds):
                return None
            angles.append(front - rear)
        return (angles[1] - angles[0]) / (2 * step)

    # --- the report ------------------------------------------------------------------------------

    def report(self, a=G):
        """The numbers under the names that the car report gives them."""
        over = self.rollover()
        limits = {name: self.limit(name, over) for name in self.ends}
        known = [value for value in limits.values() if value is not None]
        lower = min(known) if known else None
        gradient, small = self.understeer_gradient(), 0.01 * G
        sums = {name: sum(self.loads(name, a)[:3]) * end.track for name, end in self.ends.items()}
        return {
            "roll_gradient_deg_per_g": self.body_roll(small) / small * G / DEG,
            "roll_angle_deg": self.body_roll(a) / DEG,
            "front_load_transfer_share": sums["front"] / sum(sums.values()),
            "limit_g": lower and lower / G,
            "rollover_g": over / G,
            "limit_end": next((name for name in limits if lower and limits[name] == lower), None),
            **{f"{name}_limit_g": value and value / G for name, value in limits.items()},
            "understeer_gradient_deg_per_g": None if gradient is None else gradient * G / DEG,
            **{name: self.end_report(name, a) for name in self.ends},
        }

    def end_report(self, name, a):
        end, (elastic, links, unsprung, inside, outside, _, lifted) = self.ends[name], self.loads(name, a)
        return {
            "spring_wheel_rate_N_per_mm": end.spring / 1000,
            "bar_wheel_rate_in_roll_N_per_mm": end.bar / 1000,
            "spring_roll_stiffness_Nm_per_deg": end.roll(end.spring) * DEG,
            "bar_roll_stiffness_Nm_per_deg": end.roll(end.bar) * DEG,
            "roll_stiffness_Nm_per_deg": end.stiffness() * DEG,
            "load_transfer_N": elastic + links + unsprung,
            "elastic_N": elastic,
            "geometric_N": links,
            "unsprung_N": unsprung,
            "inside_wheel_load_N": inside,
            "outside_wheel_load_N": outside,
            "inside_wheel_lifted": lifted,
        }
