package picture

import "example.org/cogcourt/compat/geometry"

// side draws cogs, ring, chain and pulleys from the drive side.
func (v *view) side() {
	v.text("s", pt{v.size.x - viewMargin, 16}, end, "From the drive side")
	v.sprockets()
	v.chain()
	for _, axle := range []pt{v.rear, v.front} {
		v.circle("axle", axle, 3)
	}
	cog, ring := v.largest(), v.o.Rings[0]
	v.place("b", plain(cog.Teeth)+" t", spot{v.rear.to(0, -cog.TipRadius.Value*v.scale-8), middle})
	name := plain(ring.Teeth)
	for i, r := range v.o.Rings[1:] {
		if i+2 < len(v.o.Rings) {
			name += ", " + plain(r.Teeth)
			continue
		}
		name += " and " + plain(r.Teeth)
	}
	above := v.front.to(0, -ring.TipRadius.Value*v.scale-8)
	v.place("b", name+" t", spot{above, middle}, spot{pt{v.size.x - viewMargin, above.y}, end})
	y := v.floor + 24
	v.line("pole", v.rear.to(0, 6), pt{v.rear.x, y + 4})
	v.line("pole", v.front.to(0, 6), pt{v.front.x, y + 4})
	below := spot{pt{(v.rear.x + v.front.x) / 2, y + 18}, middle}
	v.dimension(pt{v.rear.x, y}, pt{v.front.x, y}, "chainstay "+dec(v.o.Chainstay.Value, -1)+" mm", below)
	v.floor = y + 22
}

// sprockets draws the bodies, and as many teeth as there are on the largest and the
// smallest cog and on the rings.
func (v *view) sprockets() {
	draw := func(at pt, teeth, pitch, tip float64) {
		root := pitch - geometry.Roller/2
		v.circle("body", at, root*v.scale)
		v.teeth(at, teeth, root*v.scale, tip*v.scale)
	}
	last := len(v.o.Cogs) - 1
	cog := v.largest()
	draw(v.rear, cog.Teeth.Value, cog.PitchRadius.Value, cog.TipRadius.Value)
	for _, c := range v.o.Cogs[min(1, last):last] {
		v.circle("circle", v.rear, c.PitchRadius.Value*v.scale)
	}
	if c := v.o.Cogs[0]; last > 0 {
		draw(v.rear, c.Teeth.Value, c.PitchRadius.Value, c.TipRadius.Value)
	}
	for _, r := range v.o.Rings {
		draw(v.front, r.Teeth.Value, r.PitchRadius.Value, r.TipRadius.Value)
	}
}

// chain draws the chain on the largest pair: whole where nothing but the axle takes it
// up, and else as far as the guide pulley.
func (v *view) chain() {
	ring := wheel{v.front, v.o.Rings[0].PitchRadius.Value * v.scale, 1}
	cog := wheel{v.rear, v.largest().PitchRadius.Value * v.scale, 1}
	leaves, meets := tangent(ring, cog)
	if v.guided() {
		v.overGuide(ring, cog)
		return
	}
	back, ends := tangent(cog, ring)
	v.path("chain", v.from(ends).round(ring, ends, leaves).line(meets).round(cog, meets, back))
	class := "chain"
	if v.o.Chain.HeldBy != "axle" {
		class = "chain maybe"
		if v.o.Chain.HeldBy == "derailleur" {
			v.notes = append(v.notes, "The guide pulley is not drawn: "+lower(whyNot("guide", v.o, enoughForGuide)))
		}
	}
	v.line(class, back, ends)
}

// overGuide draws the chain over both pulleys. What hangs on the place of the cage is
// dashed.
func (v *view) overGuide(ring, cog wheel) {
	way := forward(guideAngle)
	tip := v.largest().TipRadius.Value * v.scale
	bolt := tip + v.o.Guide.Bolt.Value*v.scale
	pulley := max(v.o.Guide.TipRadius.Value-pinToTip, 4) * v.scale
	guide := wheel{v.rear.to(way.x*bolt, way.y*bolt), pulley, -1}
	below := forward(cageAngle)
	tension := wheel{guide.at.to(below.x*cageLength*v.scale, below.y*cageLength*v.scale), pulley, 1}

	ringFrom, cogTo := tangent(ring, cog)
	cogFrom, guideTo := tangent(cog, guide)
	guideFrom, tensionTo := tangent(guide, tension)
	tensionFrom, ringTo := tangent(tension, ring)
	v.circle("body", guide.at, pulley)
	v.circle("circle maybe", tension.at, pulley)
	v.line("cage maybe", guide.at, tension.at)
	v.path("chain maybe", v.from(guideTo).round(guide, guideTo, guideFrom).line(tensionTo).round(tension, tensionTo, tensionFrom).line(ringTo))
	v.path("chain", v.from(ringTo).round(ring, ringTo, ringFrom).line(cogTo).round(cog, cogTo, cogFrom).line(guideTo))
	v.circle("axle", guide.at, 2.2)
	v.floor = max(v.floor, tension.at.y+pulley+4)
	v.gapBar(way, tip, bolt)
}

// gapBar draws the B-gap from tip to tip, and beside it what a ruler shows.
func (v *view) gapBar(way pt, tip, bolt float64) {
	aside := 20.0
	if v.roomy() {
		aside = 44
	}
	along := func(far, off float64) pt { return v.rear.to(way.x*far+way.y*off, way.y*far-way.x*off) }
	v.line("gap", along(tip, 0), along(tip+v.o.Guide.Gap.Value*v.scale, 0))
	v.path("dim", v.from(along(tip, 0)).line(along(tip, aside)).line(along(bolt, aside)).line(along(bolt, 0)))
	at := along((tip+bolt)/2, aside+8)
	if v.roomy() {
		v.place("b i", "ruler "+dec(v.o.Guide.Bolt.Value, 1)+" mm", spot{at.to(0, -12), begin})
		v.place("s i", "tooth tips to the middle of the bolt", spot{at.to(0, 4), begin})
		v.place("s i", "B-gap "+dec(v.o.Guide.Gap.Value, 1)+" mm, tip to tip", spot{at.to(0, 20), begin})
		return
	}
	v.place("b i", "ruler "+dec(v.o.Guide.Bolt.Value, 1), spot{at.to(0, -3), begin})
	v.place("s i", "B-gap "+dec(v.o.Guide.Gap.Value, 1), spot{at.to(0, 12), begin})
}
