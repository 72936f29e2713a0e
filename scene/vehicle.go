package scene

// Vehicle is what the tape says of the chassis as a whole.
type Vehicle struct {
	WheelbaseMM float64
	Front       End
	Rear        End
}

// End is one end of the vehicle.
type End struct {
	// TrackMM is the distance between the centre planes of the two tyres.
	TrackMM float64
	Tyre    Tyre
	// FrameHeightMM is the height of the frame datum plane over the ground at
	// this axle's station, at ride.
	FrameHeightMM float64
	// Independent says that each wheel moves by itself. Otherwise an axle
	// joins the two.
	Independent bool
	// SteerDeg is the largest steer of the wheels each way; 0 does not steer.
	SteerDeg float64
	// CrossMM is the largest difference between the left and the right corner
	// height that is to be checked; 0 keeps the two level.
	CrossMM float64
	// Suspension holds the axle or the wheels; nil is a plain vertical guide.
	// It is never changed in place: an edit puts a new one here.
	Suspension *Suspension
}

// Tyre is a size code such as 225/45R17, or a plain diameter, width and rim.
// Code empty means the plain numbers hold.
type Tyre struct {
	Code       string
	DiameterMM float64
	WidthMM    float64
	RimMM      float64
	// DeflectionMM is how much lower the axle stands than the free radius
	// because the tyre carries load.
	DeflectionMM float64
}

// Carrier is what a part rides on. A part's position is measured from its
// carrier's origin:
//
//	body                  origin of the body axes
//	front_axle rear_axle  middle of the axle, at the height of the wheel centres at ride
//	wheel_fl … wheel_rr   centre of the wheel at ride
//	ground                the point of the ground below the body origin at ride
type Carrier string

const (
	Body      Carrier = "body"
	FrontAxle Carrier = "front_axle"
	RearAxle  Carrier = "rear_axle"
	WheelFL   Carrier = "wheel_fl"
	WheelFR   Carrier = "wheel_fr"
	WheelRL   Carrier = "wheel_rl"
	WheelRR   Carrier = "wheel_rr"
	Ground    Carrier = "ground"
)

// Carriers lists every carrier in the order it is shown.
var Carriers = []Carrier{Body, FrontAxle, RearAxle, WheelFL, WheelFR, WheelRL, WheelRR, Ground}

// Trait is one thing a part is. The traits of two parts decide the gap they
// must keep.
type Trait string

const (
	Fixed      Trait = "fixed"      // bolted or welded to the body or frame
	Frame      Trait = "frame"      // the frame and its crossmembers
	Floor      Trait = "floor"      // floor, tunnel, bed and firewall panels
	Moving     Trait = "moving"     // suspension, axle, steering linkage
	Engine     Trait = "engine"     // engine, gearbox, steering shaft: shakes on its mounts
	Spring     Trait = "spring"     // air spring
	Driveshaft Trait = "driveshaft" // turning shaft
	TyreTrait  Trait = "tyre"       // tyre and wheel
	Exhaust    Trait = "exhaust"    // hot pipe, muffler, tip
	Fuel       Trait = "fuel"       // fuel tank, line, filler, vent
	Brake      Trait = "brake"      // brake line, booster, master cylinder
	Electric   Trait = "electric"   // wiring and electric parts
	Battery    Trait = "battery"    // battery
	Air        Trait = "air"        // air tank, air line, compressor
	Burns      Trait = "burns"      // wood, trim, anything that chars
)

// AllTraits lists every trait in the order it is shown.
var AllTraits = []Trait{Fixed, Frame, Floor, Moving, Engine, Spring, Driveshaft, TyreTrait, Exhaust, Fuel, Brake, Electric, Battery, Air, Burns}
