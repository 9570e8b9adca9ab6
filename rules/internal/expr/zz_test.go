package expr
import ("testing";"fmt";"example.org/cogcourt/rules/source")
func TestZZ(t *testing.T){
 sail := NewObject("sail","",source.NewTable(
  source.Field{Name: "area_m2", Type: source.Fraction},source.Field{Name: "reefs", Type: source.Whole},
  source.Field{Name: "panels_m2", Type: source.Fractions,Cap:8},source.Field{Name: "knots", Type: source.Wholes,Cap:8},
  source.Field{Name: "cloth", Type: source.Choice,Choices:[]string{"canvas","nylon"}},source.Field{Name: "wet", Type: source.Flag},source.Field{Name:"limit",Type:source.Whole}))
 mast := NewObject("mast","",source.NewTable(source.Field{Name:"height_m",Type:source.Fraction}))
 l,err := NewLanguage(sail,mast); if err!=nil {t.Fatal(err)}
 for _,x := range []string{
 "foo(1) > 2","foo (1) > 2", "sail.foo(1)>2","sail.panels_m2.foo(1)","sail.panels_m2.size() > 1","sail . area > 1","sail.\n area>1","1 + foo.bar > 1","foo","sail.cloth.startsWidth('x')",
 "sail.area_m2.x > 1","sail.area_m2 = 1","sail.wet and sail.wet","not sail.wet","sail.area_m2 == 1.0","sail.reefs == 1.0","sail.area_m2 == 1", "sail.reefs in [1,2.5]","max([1,2.5]) > 2","[1,2.5].exists(x, x == 2.5)","[].exists(x, x==1)","sum([]) > 1",
 ".sail.area_m2 > 1.0","sail == null","null == null","int == int","type(1) == int","dyn(1) == 1","1u == 1u","b'a'==b'a'","has(sail.wet)","sail.?wet","sail.wet ? 1 : 0.5","sail.reefs > 1 // hi",
 "sail.panels_m2.exists(sail, true)","sail.panels_m2.exists(x, sail.panels_m2.exists(y, sail.panels_m2.exists(z, x>y && z>1)))","sail.panels_m2.exists(x, sail.panels_m2.exists(y, x>y))","sail.panels_m2.map(x, x)","sail.panels_m2.exists(1, true)",
 "mast.exists(x, true)","mast > 1","sail.reefs + 1","{'a':1}","sail{wet:true}","stated(sail.wet)","1 sail.limit","sail.cloth == 'canvs'","sail.cloth in ['x','canvas']","sail.cloth > 1","abs('a') > 1","min(1,2,3) > 1","near(1,2) ","sail.reefs > ","(sail.reefs > 1","sail.reefs > 1)","'abc","sail.reefs => 1","sail.reefs =< 1","sail.reefs >> 1","@","size(sail.cloth) > 2","sail.knots[1.0] > 2","sail.cloth[0]=='a'","a.b.c.d > 1","in > 1","sail.reefs > 1; 2","sail['area_m2'] > 1","sail.reefs & 1","sail.reefs <> 1","sail.reefs ≥ 1","sail.reefs > 1,5","sail.area_m2 > 1.","sail.area_m2 > .5","sail.reefs > 99999999999999999999","-sail.reefs > 1","!sail.reefs","sail.reefs ? true : false","5 % 2.0 > 1","sail.wet || 1","sail.wet > 1","sail.cloth + 1 == 'a'", "sail.area_m2 + sail.cloth > 1","1e400 > 1","1.0/0 > 1","sail.wet AND sail.wet", "sail.reefs is 1","if sail.wet then", "sail.sail.wet","max(sail.area_m2, sail.knots)>1", "",
 "foo(bar(1)) > 1 && baz.qux", "sail.aera_m2 > 1 && mast.aera_m2 > 1","'é' == 'a' && foo(1)", "sail.wet == sail.wet",
 }{
  p, is := l.NewScope().Compile(x, Condition)
  if p!=nil { fmt.Printf("OK   %q cost %d\n", x, p.Cost()); continue}
  for _,i := range is { fmt.Printf("%q @%d:%d -> %d %s | %s\n", x, i.Line,i.Col,i.Offset(x), i.Text,i.Hint)}
  if len(is)==0 {fmt.Println("NONE",x)}
 }
}
