/* SPDX-License-Identifier: MIT */
/* A little help that the page does without: values under the pointer, the finger or the arrow keys, and one vessel */
/* followed through all charts. It contains no character that is markup, so that XML and HTML read it alike. */
/* Comments stand on lines of their own, which are not built in. */
(function(){'use strict';
var NS='http://www.w3.org/2000/svg',main=document.querySelector('main');
function all(s,r){return Array.prototype.slice.call((r||document).querySelectorAll(s));}
function nums(t){return t.trim().split(/[ ,]+/).map(Number);}
/* the value of a curve at x, in the drawing's units; NaN outside */
function at(points,x){for(var i=2;points.length>i;i+=2){var a=points[i-2],b=points[i];
if((a-x)*(b-x)>0)continue;return b===a?points[i+1]:points[i-1]+(points[i+1]-points[i-1])*(x-a)/(b-a);}
return NaN;}
function hours(h,clock){var m=Math.round(60*(h+(clock||0))),d=Math.floor(m/1440);
if(clock===null)return Math.floor(m/60)+' h '+('0'+m%60).slice(-2)+' min';
m=m-1440*d;return (d>0?'day '+(d+1)+' ':'')+('0'+Math.floor(m/60)).slice(-2)+':'+('0'+m%60).slice(-2);}
function element(name,parent,className){var e=document.createElement(name);e.className=className;parent.appendChild(e);return e;}
var live=element('div',document.body,'live'),open=null;
live.setAttribute('aria-live','polite');
function shut(){if(open)open();open=null;}
/* one plot of a figure: what it says at u, a share of its width */
function plot(g){var svg=g.ownerSVGElement,fig=svg.parentNode,box=nums(g.dataset.box),
xs=g.dataset.x.split(' '),ys=nums(g.dataset.y),
clock=g.dataset.clock===undefined?null:Number(g.dataset.clock),
curves=all('g>title',g).map(function(t){var c=t.parentNode;return{g:c,n:t.textContent,
l:all('polyline',c).map(function(p){return nums(p.getAttribute('points'));})};}),
read=element('div',fig,'read'),hair=document.createElementNS(NS,'line');
read.hidden=true;read.setAttribute('aria-hidden','true');
hair.setAttribute('class','hair');hair.setAttribute('y1',box[1]);hair.setAttribute('y2',box[1]+box[3]);
function leave(){read.hidden=true;if(hair.parentNode)g.removeChild(hair);}
function show(u){var x=box[0]+u*box[2],X=Number(xs[0])+u*(xs[1]-xs[0]),lines=[];
curves.forEach(function(c){if(c.g.classList.contains('faint'))if(!c.g.classList.contains('followed'))return;
c.l.forEach(function(p){var y=at(p,x);if(isNaN(y))return;
var v=ys[0]+(ys[1]-ys[0])*(1-(y-box[1])/box[3]);lines.push([v,c.n+'  '+v.toPrecision(3)]);});});
if(lines.length===0){leave();return '';}
lines.sort(function(a,b){return b[0]-a[0];});
read.textContent=(xs[2]?hours(X,clock):X.toPrecision(3))+'\n'+lines.map(function(l){return l[1];}).join('\n');
hair.setAttribute('x1',x);hair.setAttribute('x2',x);g.appendChild(hair);read.hidden=false;
var r=svg.getBoundingClientRect(),k=r.width/svg.viewBox.baseVal.width,left=x*k+14;
if(left+read.offsetWidth>r.width)left=Math.max(0,left-read.offsetWidth-28);
read.style.left=left+'px';read.style.top=box[1]*k+'px';return read.textContent;}
return{box:box,show:show,leave:leave};}
function figures(r){all('figure',r).forEach(function(fig){var plots=all('g.plot',fig).map(plot),svg=fig.querySelector('svg'),u=0,which=0;
plots=plots.filter(function(p){return fig.querySelector('polyline');});
if(plots.length===0)return;
function leave(){plots.forEach(function(p){p.leave();});}
function move(e){var r=svg.getBoundingClientRect(),x=(e.clientX-r.left)*svg.viewBox.baseVal.width/r.width;
plots.forEach(function(p){var s=(x-p.box[0])/p.box[2];if(0>s||s>1)p.leave();else p.show(s);});}
svg.addEventListener('pointermove',function(e){if(e.pointerType==='mouse')move(e);});
/* a finger's readout stays until the next tap, anywhere */
svg.addEventListener('pointerdown',function(e){shut();move(e);open=leave;e.stopPropagation();});
svg.addEventListener('pointerleave',function(e){if(e.pointerType==='mouse')leave();});
fig.tabIndex=0;
fig.addEventListener('keydown',function(e){var step={ArrowRight:0.02,ArrowLeft:-0.02,Home:-1,End:1}[e.key];
if(e.key==='Escape')leave();
if(step===undefined)return;
e.preventDefault();u+=step;
if(u>1.0001)if(plots.length-1>which){which++;u=0;}
if(-0.0001>u)if(which>0){which--;u=1;}
u=Math.max(0,Math.min(1,u));leave();live.textContent=plots[which].show(u);});
fig.addEventListener('blur',leave);});}
figures();
document.addEventListener('pointerdown',shut);
window.addEventListener('beforeprint',function(){all('details').forEach(function(d){d.open=true;});});
/* a phone's screen begins with what matters most */
if(640>=window.innerWidth)all('details.long').forEach(function(d){d.open=false;});
/* tables that are wider than there is room say so */
function cue(){all('.scroll').forEach(function(s){s.classList.toggle('more',s.scrollWidth>s.clientWidth+2);});}
cue();window.addEventListener('resize',cue);all('details').forEach(function(d){d.addEventListener('toggle',cue);});
function follow(){var names=all('.plant .vessel').map(function(g){return g.dataset.vessel;}),place=document.querySelector('#charts h2');
if(place)if(names.length>1){var row=document.createElement('p'),label=element('label',row,''),select=element('select',row,'');
row.className='follow';label.textContent='Follow one vessel';label.htmlFor='follow';select.id='follow';
['(all alike)'].concat(names).forEach(function(n,i){var o=element('option',select,'');o.textContent=n;o.value=i?n:'';});
select.addEventListener('change',function(){var n=select.value;main.classList.toggle('following',n!=='');
all('[data-vessel]').forEach(function(e){var on=n!==''?e.dataset.vessel===n:false;e.classList.toggle('followed',on);
var f=e.closest('figure');if(f)if(e.classList.contains('core'))f.classList.toggle('followed',on);});});
place.parentNode.insertBefore(row,place.nextSibling);}}
follow();
/* a section that another has taken the place of; all of them are measured at once */
var measured=true;
document.addEventListener('renewed',function(e){figures(e.target);
if(measured)requestAnimationFrame(function(){measured=true;cue();});
measured=false;if(e.target.id==='charts')follow();});
})();
